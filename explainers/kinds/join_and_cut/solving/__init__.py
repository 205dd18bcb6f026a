"""Where pieces come to lie by their marks alone, and what comes of it."""
