"""Kinds of question: one folder each, and what each must give."""
