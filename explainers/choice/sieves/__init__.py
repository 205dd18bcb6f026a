"""Sieves: what can be seen and counted on outlines as they are shown, before any is laid on another.

A sieve compares one feature of the outline with the same feature of every option that is left. The feature is the same
for an outline turned, drawn larger or flipped, so the right option always passes, and so does a flipped one: that a
flip is no turn must be seen in another way.
"""
