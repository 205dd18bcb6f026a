"""Slips that change the outline: what each is, in order, and the fact that one makes an option."""
