"""What is said in and around a lesson, whatever kind its questions are: sentences, headings, labels, words of pages.

How a message is said in a language is in ``words``; what a kind says of its own questions is in its own ``words``.
"""
