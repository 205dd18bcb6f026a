"""Turned outline: one outline is shown; which option is the same outline, turned and never flipped?"""
