"""Where drawn things are kept, and how many of them: the operating system's habit, unless the environment says else.

EXPLAINERS_CACHE names the folder, EXPLAINERS_CACHE_MB the bound in megabytes (0 keeps nothing).
"""

from __future__ import annotations

import logging
import math
import os
import tempfile
from pathlib import Path

from .store import Store

__all__ = ["BOUND_VARIABLE", "FOLDER_VARIABLE", "cache_folder", "compiled_store", "shared_store"]

FOLDER_VARIABLE = "EXPLAINERS_CACHE"
BOUND_VARIABLE = "EXPLAINERS_CACHE_MB"

_LOG = logging.getLogger("explainers")

_USUAL_MB = 2000.0
_COMPILED_MB = 5.0
_MB = 1_000_000


def shared_store() -> Store:
    """The store that all runs of this user share."""
    return Store(cache_folder(), round(_bound_mb() * _MB))


def compiled_store() -> Store:
    """The store of what is compiled from files of ours: small, and apart, so that drawings never drop it.

    Nobody is told where it cannot be used: compiling takes a moment only.
    """
    return Store(cache_folder() / "compiled", round(min(_bound_mb(), _COMPILED_MB) * _MB), warn=False)


def cache_folder() -> Path:
    """$EXPLAINERS_CACHE, else `explainers` in $XDG_CACHE_HOME, else ~/.cache/explainers."""
    named = os.environ.get(FOLDER_VARIABLE)
    if named:
        return Path(named).expanduser()
    caches = Path(os.environ.get("XDG_CACHE_HOME", ""))
    if caches.is_absolute():  # XDG Base Directory Specification: a relative path is to be ignored
        return caches / "explainers"
    try:
        return Path.home() / ".cache" / "explainers"
    except RuntimeError:  # a user without a home
        return Path(tempfile.gettempdir()) / f"explainers-cache-{os.getuid() if hasattr(os, 'getuid') else 'user'}"


def _bound_mb() -> float:
    said = os.environ.get(BOUND_VARIABLE, "").strip()
    if not said:
        return _USUAL_MB
    try:
        bound = float(said)
    except ValueError:
        bound = math.nan
    if not 0.0 <= bound < math.inf:
        _LOG.warning("warning: %s is %r, not a number of megabytes; %g is taken", BOUND_VARIABLE, said, _USUAL_MB)
        return _USUAL_MB
    return bound
