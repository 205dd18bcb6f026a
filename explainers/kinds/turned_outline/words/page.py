"""The words of a page where learners do with their hands what its steps say: no step of this kind has any."""

from __future__ import annotations

__all__ = ["page_words"]


def page_words() -> dict[str, str]:
    """No texts: an option is chosen as in any question, and nothing else is handled."""
    return {}
