"""Fact -> sentence and alt text: the only room with prose for learners."""
