"""A machine's voice: words to sound by the library espeak-ng, which a Python package carries with its data.

The library is called in this process through ctypes and has one state for the whole process, so it is set up once and
everything said goes through one door.
"""

from __future__ import annotations

import ctypes
import math
import threading
from collections.abc import Sequence
from functools import cache

import numpy as np
from scipy.signal import resample_poly

from ..errors import OutputError
from .sound import RATE, Sound

__all__ = ["WORDS_A_MINUTE", "spoken_by_machine"]

# The library's own speed of 175 words a minute hurries a child of ten; its slowest is 80, its fastest 450.
WORDS_A_MINUTE = 140
_SLOWEST, _FASTEST = 80, 450

# Values of espeak-ng's speak_lib.h.
_AUDIO_OUTPUT_SYNCHRONOUS = 2
_INITIALIZE_DONT_EXIT = 0x8000
_CHARS_UTF8 = 1
_POS_CHARACTER = 1
_RATE = 1
_PITCH = 3
_OK = 0

_CALLBACK = ctypes.CFUNCTYPE(ctypes.c_int, ctypes.POINTER(ctypes.c_short), ctypes.c_int, ctypes.c_void_p)
_LOCK = threading.Lock()


def spoken_by_machine(
    words: str, language: str = "en-GB", *, words_a_minute: float = WORDS_A_MINUTE, variant: str = "", pitch: int = 50
) -> Sound:
    """The words as a machine says them.

    language       : a language tag
    words_a_minute : 80 to 450
    variant        : of the voice, such as "f2"
    pitch          : 0 to 100
    Raises         : OutputError where the library is not installed, or does not speak the language
    """
    speaker = _speaker()
    with _LOCK:
        return speaker.say(words, _voice(language, variant), words_a_minute, pitch)


def _voice(language: str, variant: str) -> str:
    return language.lower() + (f"+{variant}" if variant else "")


class _Speaker:
    """The library, set up."""

    def __init__(self, library: ctypes.CDLL, data_path: str) -> None:
        self._library = library
        self._blocks: list[bytes] = []
        # Kept as long as the library may call it.
        self._callback = _CALLBACK(self._taken)
        self._rate = int(
            library.espeak_Initialize(_AUDIO_OUTPUT_SYNCHRONOUS, 0, data_path.encode(), _INITIALIZE_DONT_EXIT)
        )
        if self._rate <= 0:
            raise OutputError("the voice of the package espeakng-loader cannot be set up; install that package again")
        library.espeak_SetSynthCallback(self._callback)

    def say(self, words: str, voice: str, words_a_minute: float, pitch: int) -> Sound:
        library = self._library
        named = [voice, voice.split("+")[0].split("-")[0]]
        if not any(library.espeak_SetVoiceByName(name.encode()) == _OK for name in named):
            raise OutputError(f"the machine's voice does not speak the language {voice!r}")
        rate = min(_FASTEST, max(_SLOWEST, round(words_a_minute)))
        library.espeak_SetParameter(_RATE, rate, 0)
        library.espeak_SetParameter(_PITCH, pitch, 0)
        self._blocks.clear()
        text = words.replace("\0", " ").encode()
        size = ctypes.c_size_t(len(text) + 1)
        said = library.espeak_Synth(text, size, 0, _POS_CHARACTER, 0, _CHARS_UTF8, None, None)
        library.espeak_Synchronize()
        if said != _OK:
            raise OutputError("the machine's voice could not say these words")
        samples = np.frombuffer(b"".join(self._blocks), dtype=np.int16).astype(np.float64) / 32768.0
        common = math.gcd(RATE, self._rate)
        if len(samples):
            samples = resample_poly(samples, RATE // common, self._rate // common)
        return Sound(samples.astype(np.float32))

    def _taken(self, samples: Sequence[int], count: int, _events: int) -> int:
        if samples and count > 0:
            self._blocks.append(ctypes.string_at(samples, 2 * count))  # type: ignore[arg-type]
        return 0  # go on


@cache
def _speaker() -> _Speaker:
    try:
        import espeakng_loader  # type: ignore[import-untyped]
    except ModuleNotFoundError as error:
        raise OutputError(
            "a scratch voice needs the Python package espeakng-loader, which is not installed. To mend it: run "
            "pip install 'explainers[voice]', or give a command of your own under voice: in the lesson"
        ) from error
    library = ctypes.CDLL(espeakng_loader.get_library_path())
    return _Speaker(library, espeakng_loader.get_data_path())
