"""What is named where a file is meant, and is none: a pipe without a writer must not hold anything up."""

from __future__ import annotations

import os
import tracemalloc
import wave
from collections.abc import Callable
from pathlib import Path

import pytest

from explainers.document.file_text import Unreadable, text_of_file
from explainers.errors import OutputError, RecordingError
from explainers.fitting.prompter_log import read_log
from explainers.item.svg_tree import Refused, tree_of_file
from explainers.outputs.pptx.template import check_template
from explainers.plain_file import check_plain, opened_plain
from explainers.tracing.file_read import read_whole
from explainers.voice.sound import read_sound

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="pipes with a name are those of Unix")

READERS: list[tuple[Callable[[Path], object], type[Exception]]] = [
    (opened_plain, OSError),
    (check_plain, OSError),
    (text_of_file, Unreadable),
    (tree_of_file, Refused),
    (read_whole, Refused),
    (check_template, OutputError),
    (read_log, RecordingError),
    (read_sound, RecordingError),
]


@pytest.mark.parametrize(("reader", "error"), READERS, ids=lambda each: getattr(each, "__name__", ""))
def test_a_pipe_and_a_device_are_refused_at_once(
    reader: Callable[[Path], object], error: type[Exception], tmp_path: Path
) -> None:
    pipe = tmp_path / "pipe.yaml"
    os.mkfifo(pipe)
    for path in (pipe, Path("/dev/zero")):
        with pytest.raises(error, match="plain file"):
            reader(path)


def test_a_file_and_a_link_to_it_are_opened(tmp_path: Path) -> None:
    (tmp_path / "a").write_bytes(b"abc")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    for name in "ab":
        check_plain(tmp_path / name)
        with opened_plain(tmp_path / name) as file:
            assert file.read() == b"abc"


def test_a_recording_of_a_sample_a_second_takes_no_memory(tmp_path: Path) -> None:
    """Its four hours would become 690,000,000 samples."""
    with wave.open(str(tmp_path / "slow.wav"), "wb") as file:
        file.setnchannels(1)
        file.setsampwidth(2)
        file.setframerate(1)
        file.writeframes(bytes(2 * 14_000))
    tracemalloc.start()
    with pytest.raises(RecordingError, match=r"slow\.wav: this recording has only 1 samples a second"):
        read_sound(tmp_path / "slow.wav")
    _, most = tracemalloc.get_traced_memory()
    tracemalloc.stop()
    assert most < 5_000_000
