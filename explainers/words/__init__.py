"""Saying messages: the catalogues, and names, numbers and lengths in words. Nothing here knows what is said."""
