"""The page of a lesson's folder: true to what is there, and used in a real browser, as a file and when served."""

from __future__ import annotations

import functools
import json
import re
import shutil
import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from html.parser import HTMLParser
from http.server import SimpleHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from urllib.parse import unquote

import pytest
from axe_playwright_python.sync_playwright import Axe
from outputs.carried_face import FACES, in_face
from outputs.chromium import CHROMIUM
from outputs.learner_views import cue_blocks
from outputs.test_clip_plays import codecs
from playwright.sync_api import Browser, Page, expect, sync_playwright
from storyboard.short_clip import short_timeline

from explainers.batch import build, write_output
from explainers.errors import OutputError
from explainers.outputs.html.index_page import index_html, write_index
from explainers.outputs.html.index_parts import PARTS
from explainers.outputs.pdf.sheets import FILE_NAMES
from explainers.outputs.registry import WRITERS
from explainers.outputs.shared import captions
from explainers.sentences.index_page import IndexItem, size_in_words
from explainers.storyboard.timeline import Timeline
from explainers.words.catalogue import languages
from explainers.words.messages import speaking

NAME = "sample-lesson"
NASTY = '<img src=x onerror="alert(1)">'

needs_chromium = pytest.mark.skipif(not CHROMIUM.exists(), reason="Chromium is not installed")


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    folder = tmp_path / NAME
    folder.mkdir()
    return folder


def put(folder: Path, *endings: str, size: int = 1200) -> None:
    """Files of the lesson that are there; what is in them does not matter."""
    for ending in endings:
        (folder / f"{NAME}{ending}").write_bytes(b"x" * size)


class Read(HTMLParser):
    """What a page links to and says."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.tags: list[tuple[str, dict[str, str | None]]] = []
        self.words = ""
        self._skipped = 0
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append((tag, dict(attrs)))
        self._skipped += tag in ("script", "style")

    def handle_endtag(self, tag: str) -> None:
        self._skipped -= tag in ("script", "style")

    def handle_data(self, data: str) -> None:
        self.words += data if not self._skipped else ""

    @property
    def links(self) -> list[str]:
        return [attrs["href"] or "" for tag, attrs in self.tags if tag == "a"]

    @property
    def policy(self) -> str:
        return next(attrs["content"] or "" for _, attrs in self.tags if attrs.get("http-equiv"))


def test_what_is_not_there_is_not_listed(folder: Path) -> None:
    page = Read(index_html(short_timeline(), folder))
    assert page.links == [] and "Slides to edit" not in page.words and "The clip" not in page.words
    put(folder, ".pptx", ".cues.csv", ".questions.pdf")
    (folder / "another.pptx").write_bytes(b"x")
    (folder / f"{NAME}.notes.txt").write_bytes(b"x")
    page = Read(index_html(short_timeline(), folder))
    assert page.links == [f"{NAME}.questions.pdf", f"{NAME}.pptx", f"{NAME}.cues.csv"]
    assert all(said in page.words for said in ("Slides to edit", "Cue sheet", "Question sheet", "1 kB"))
    assert "Handout" not in page.words and "For showing it elsewhere" not in page.words


def test_every_output_has_its_place_on_the_page() -> None:
    listed = {part.thing.value for part in PARTS}
    assert set(WRITERS) - {"index"} <= listed
    assert set(FILE_NAMES.values()) <= listed
    assert sorted(listed) == sorted(IndexItem) and len(PARTS) == len(listed)


@pytest.mark.parametrize(
    "output", [name for name, spec in WRITERS.items() if not spec.reports and not spec.lists_folder]
)
def test_whatever_a_writer_writes_is_listed(output: str, folder: Path, demo: Timeline) -> None:
    """The names on the page are those that the writers give; those that draw are held in the browser below."""
    options = {"certificates": [["A proof."]], "scale": "On A4."} if WRITERS[output].certifies else {}
    written = write_output(output, demo, folder, **options)
    links = [unquote(link) for link in Read(index_html(demo, folder)).links]
    assert sorted(links) == sorted(path.name for path in written)


@pytest.fixture(scope="module")
def demo() -> Timeline:
    """A real lesson: the hand-made one has no poster, and no words of its own to describe it."""
    from explainers.batch import timeline_of

    return timeline_of(Path(__file__).parents[2] / "items" / "corner-block.yaml")


def test_sheets_of_several_versions_and_a_folder_of_stills(folder: Path) -> None:
    put(folder, ".version-1.questions.pdf", ".version-2.questions.pdf")
    (folder / "stills").mkdir()
    for number in (1, 2, 3):
        (folder / "stills" / f"00{number}-step.png").write_bytes(b"x" * 400_000)
    page = Read(index_html(short_timeline(), folder))
    assert page.links == [f"{NAME}.version-1.questions.pdf", f"{NAME}.version-2.questions.pdf", "stills/"]
    assert all(said in page.words for said in ("A4, version 2 (PDF)", "3 pictures", "1.2 MB"))


def test_every_variant_is_listed_as_what_it_is_whichever_is_played(folder: Path) -> None:
    timeline = short_timeline()
    scratch = replace(timeline, storyboard=replace(timeline.storyboard, name=f"{NAME}.scratch"))
    put(folder, ".answers.pdf", ".scratch.pptx", ".pptx", ".large-print.letter.version-2.answers.pdf", ".pace-slow.vtt")
    put(folder, ".theme-our-club.html", ".per-page-1.handout.pdf")
    put(folder, ".notes.pptx", ".theme-.pptx", ".version-0.answers.pdf")  # no words of ours
    for name in ("stills", "stills.theme-dark"):
        (folder / name).mkdir()
        (folder / name / "001-step.png").write_bytes(b"x")
        (folder / name / ".explainers-unfinished-0123456789abcdef.png").write_bytes(b"half")
        (folder / name / "my-own.png").write_bytes(b"x")
    for board in (timeline, scratch):
        page = Read(index_html(board, folder))
        assert page.links == [
            f"{NAME}.theme-our-club.html",
            f"{NAME}.pptx",
            f"{NAME}.scratch.pptx",
            f"{NAME}.per-page-1.handout.pdf",
            f"{NAME}.answers.pdf",
            f"{NAME}.large-print.letter.version-2.answers.pdf",
            f"{NAME}.pace-slow.vtt",
            "stills/",
            "stills.theme-dark/",
        ]
        for told in (
            "Our-club theme (HTML)",
            "Scratch voice (PPTX)",
            "A4, 1 step a page (PDF)",
            "A4 (PDF)",
            "Large print, US Letter paper, version 2 (PDF)",
            "Captions, slow pace (VTT)",
            "1 picture, dark theme",
        ):
            assert told in page.words, told


def test_a_clip_of_the_lesson_as_it_was_is_not_played(folder: Path) -> None:
    timeline = short_timeline()
    put(folder, ".mp4")
    (folder / f"{NAME}.vtt").write_text(captions.vtt_text(timeline), encoding="utf-8", newline="")
    assert "video" in [tag for tag, _ in Read(index_html(timeline, folder)).tags]
    (folder / f"{NAME}.vtt").write_text("WEBVTT\n\n1\n00:00:00.000 --> 00:00:01.000\nOld.\n\n", encoding="utf-8")
    page = Read(index_html(timeline, folder))
    assert "video" not in [tag for tag, _ in page.tags] and "as it was before" in page.words


def test_every_word_is_escaped_and_every_name_encoded(folder: Path, tmp_path: Path) -> None:
    timeline = short_timeline()
    board = timeline.storyboard
    imprint = replace(board.imprint, credit=NASTY, licence="</script>", about=("<b>one</b>", "</footer>"))
    chapters = tuple(replace(chapter, title=f"{NASTY} & more") for chapter in timeline.chapters)
    nasty = "a b#c%d?é<"
    cues = tuple(replace(cue, lines=("</script><script>alert(1)</script>",)) for cue in timeline.cues)
    told = replace(
        timeline,
        storyboard=replace(board, title=NASTY, name=nasty, imprint=imprint),
        chapters=chapters,
        cues=cues,
    )
    (folder / f"{nasty}.mp4").write_bytes(b"x")
    (folder / f"{nasty}.pptx").write_bytes(b"x")
    text = index_html(told, folder)
    page = Read(text)
    assert [tag for tag, _ in page.tags].count("script") == 2 and "img" not in [tag for tag, _ in page.tags]
    assert not [attrs for _, attrs in page.tags if {"onerror", "onclick", "style"} & set(attrs)]
    assert page.words.count(NASTY) == 3 + len(chapters)  # in the tab, over the page, as credit, and of each chapter
    assert page.links == ["a%20b%23c%25d%3F%C3%A9%3C.pptx", "a%20b%23c%25d%3F%C3%A9%3C.mp4"]
    assert "unsafe" not in page.policy and page.policy.startswith("default-src 'none'")


def test_a_lesson_whose_slides_would_have_the_name_of_the_page_is_told(folder: Path) -> None:
    timeline = short_timeline()
    with pytest.raises(OutputError, match="another name"):
        write_index(replace(timeline, storyboard=replace(timeline.storyboard, name="index")), folder)
    assert list(folder.iterdir()) == []


def test_a_build_keeps_the_page_true_to_the_folder(tmp_path: Path) -> None:
    """Made last, left alone while nothing changes, made again when anything is added or taken away."""
    item = tmp_path / "pocket-block.yaml"
    item.write_bytes((Path(__file__).parents[1] / "cli" / "fixtures" / "pocket-block.yaml").read_bytes())

    def built(*wanted: str) -> tuple[list[str], list[str]]:
        """What was made, and what the page then lists."""
        (result,) = build([item], tmp_path / "out", wanted)
        assert result.error is None
        page = tmp_path / "out" / "pocket-block" / "index.html"
        return [path.name for path in result.made], Read(page.read_text(encoding="utf-8")).links

    text, transcript = "pocket-block.txt", ["pocket-block.transcript.txt", "pocket-block.transcript.html"]
    assert built("index", "description") == ([text, "index.html"], [text])
    assert built("index", "description") == ([], [text])
    assert built("transcript") == ([*transcript, "index.html"], [*reversed(transcript), text])
    assert built("index", "description", "transcript") == ([], [*reversed(transcript), text])
    sheet = tmp_path / "out" / "pocket-block" / "pocket-block.answers.pdf"
    sheet.write_bytes(b"made by another command")
    assert built("index") == (["index.html"], [*reversed(transcript), sheet.name, text])
    sheet.write_bytes(b"made by another command, another size")
    assert built("description") == (["index.html"], [*reversed(transcript), sheet.name, text])
    sheet.unlink()
    assert built("index") == (["index.html"], [*reversed(transcript), text])
    assert built("index") == ([], [*reversed(transcript), text])
    item.write_text(item.read_text(encoding="utf-8").replace("The pocket block", "Another title"), encoding="utf-8")
    assert built("description") == ([text, "index.html"], [*reversed(transcript), text])
    assert "Another title" in (tmp_path / "out" / "pocket-block" / "index.html").read_text(encoding="utf-8")


def test_a_build_without_a_page_makes_none(tmp_path: Path) -> None:
    item = Path(__file__).parents[1] / "cli" / "fixtures" / "pocket-block.yaml"
    (result,) = build([item], tmp_path, ("description",))
    assert [path.name for path in result.made] == ["pocket-block.txt"]


@pytest.mark.parametrize(
    ("size", "words"), [(0, "1 kB"), (1_499, "1 kB"), (999_499, "999 kB"), (999_500, "1.0 MB"), (123_456_789, "123 MB")]
)
def test_sizes(size: int, words: str) -> None:
    assert size_in_words(size) == words


def test_the_page_speaks_the_language_of_its_lesson(folder: Path) -> None:
    put(folder, ".pptx", size=1_500_000)
    board = short_timeline().storyboard
    texts = {
        tag: index_html(replace(short_timeline(), storyboard=replace(board, language=tag)), folder)
        for tag in languages()
    }
    assert 'lang="de"' in texts["de"] and "1,5 MB" in texts["de"] and "Folien zum Bearbeiten" in texts["de"]
    assert "Slides" not in Read(texts["de"]).words
    with speaking("de"):
        assert size_in_words(1_500_000) == "1,5 MB"


# In a browser


@pytest.fixture(scope="module")
def browser() -> Iterator[Browser]:
    with sync_playwright() as driver:
        flags = ["--no-sandbox", "--disable-gpu", "--mute-audio", "--autoplay-policy=no-user-gesture-required"]
        started = driver.chromium.launch(executable_path=str(CHROMIUM), args=flags)
        yield started
        started.close()


@pytest.fixture(scope="module")
def shown(short_clip: tuple[Timeline, Path], tmp_path_factory: pytest.TempPathFactory) -> tuple[Timeline, Path]:
    """The page beside the short clip, with a title that tries to be markup and a cue with signs to escape."""
    timeline, clip = short_clip
    folder = tmp_path_factory.mktemp("shown") / NAME
    folder.mkdir()
    for suffix in (".mp4", ".vtt", ".srt"):
        shutil.copy(clip.with_suffix(suffix), folder / f"{NAME}{suffix}")
    put(folder, ".pptx", ".html", ".transcript.html", ".cues.csv", ".cues.vtt", ".cues.srt", ".cues.chapters.vtt")
    timeline = replace(timeline, storyboard=replace(timeline.storyboard, title=NASTY))
    return timeline, write_index(timeline, folder)[0]


@pytest.fixture
def opened(browser: Browser) -> Iterator[Callable[..., Page]]:
    """``opened(uri, **context)``: a page on which nothing goes wrong and nothing is asked of another place."""
    wrong: list[str] = []
    contexts = []

    def open_(uri: str, **settings: object) -> Page:
        context = browser.new_context(**settings)  # type: ignore[arg-type]
        contexts.append(context)
        page = context.new_page()
        own = uri.rsplit("/", 1)[0]
        page.on("pageerror", lambda error: wrong.append(str(error)))
        page.on("dialog", lambda dialog: (wrong.append(dialog.message), dialog.dismiss()))
        page.on("console", lambda said: wrong.append(said.text) if said.type in ("error", "warning") else None)
        page.on("request", lambda sent: wrong.append(sent.url) if own not in sent.url else None)
        page.goto(uri)
        return page

    yield open_
    for context in contexts:
        context.close()
    assert not wrong


READY = "new Promise(done => video.readyState ? done() : video.addEventListener('loadedmetadata', done))"


FRAMES = """() => {
  window.frames_ = [];
  const note = (now, frame) => { window.frames_.push(frame.mediaTime); video.requestVideoFrameCallback(note); };
  video.requestVideoFrameCallback(note);
}"""


def until(page: Page, what: str) -> None:
    """Waits; the page's policy refuses Playwright's own way of waiting, which evaluates a text in the page."""
    page.evaluate(f"async () => {{ while (!({what})) await new Promise(done => setTimeout(done, 20)); }}")


def video_of(page: Page, clip: Path) -> None:
    kind = f'video/mp4; codecs="{codecs(clip)}"'
    if page.evaluate("kind => video.canPlayType(kind)", kind) != "probably":
        pytest.skip("this Chromium was built without H.264")
    page.evaluate(READY)


@pytest.fixture(params=["file", "http"])
def address(request: pytest.FixtureRequest, shown: tuple[Timeline, Path]) -> Iterator[str]:
    path = shown[1]
    if request.param == "file":
        yield path.as_uri()
        return

    class Quiet(SimpleHTTPRequestHandler):
        def do_GET(self) -> None:
            if self.path == "/favicon.ico":  # the browser's own wish, which it asks of any server
                self.send_response(204)
                self.end_headers()
            else:
                super().do_GET()

        def log_message(self, *_: object) -> None:
            pass

    server = ThreadingHTTPServer(("127.0.0.1", 0), functools.partial(Quiet, directory=str(path.parent)))
    threading.Thread(target=server.serve_forever, daemon=True).start()
    yield f"http://127.0.0.1:{server.server_port}/index.html"
    server.shutdown()
    server.server_close()


@needs_chromium
def test_the_clip_plays_with_as_many_captions_as_its_file_has(
    address: str, shown: tuple[Timeline, Path], opened: Callable[..., Page]
) -> None:
    page = opened(address)
    video_of(page, shown[1].with_name(f"{NAME}.mp4"))
    cues = page.evaluate("[...video.textTracks[0].cues].map(cue => [cue.startTime, cue.endTime, cue.text])")
    blocks = cue_blocks(shown[1].with_name(f"{NAME}.vtt").read_text(encoding="utf-8"))
    in_file = [re.match(r"([\d:.]+) --> ([\d:.]+) (.*)", words).groups() for _, words in blocks]  # type: ignore[union-attr]
    assert [(captions.clock(round(start * 1000)), captions.clock(round(end * 1000)), text.replace("\n", " "))
            for start, end, text in cues] == in_file  # fmt: skip
    assert page.evaluate("[video.textTracks.length, video.textTracks[0].mode, video.textTracks[0].kind]") == [
        1, "showing", "captions"
    ]  # fmt: skip
    planned = shown[0].cues[0]
    page.evaluate("async () => { await video.play(); }")
    until(page, "video.currentTime > 0.6")
    # A loaded machine may look only when the caption has gone: it is looked at with the clip stopped in its midst.
    page.evaluate("video.pause(); video.currentTime = video.textTracks[0].cues[0].endTime / 2")
    until(page, "!video.seeking && video.textTracks[0].activeCues.length")
    active = page.evaluate("[...video.textTracks[0].activeCues].map(cue => cue.text)")
    assert active == ["\n".join(planned.lines)]
    assert page.evaluate("video.getVideoPlaybackQuality().totalVideoFrames") > 1


@needs_chromium
def test_each_chapter_begins_with_its_own_frame(shown: tuple[Timeline, Path], opened: Callable[..., Page]) -> None:
    timeline, path = shown
    page = opened(path.as_uri())
    video_of(page, path.with_name(f"{NAME}.mp4"))
    page.evaluate(FRAMES)
    page.evaluate("video.play = () => Promise.resolve()")  # so that the frame sought is the one that stays
    buttons = page.locator("nav button")
    expect(buttons).to_have_count(len(timeline.chapters))
    for number in (1, 0):
        buttons.nth(number).focus()
        page.keyboard.press("Enter")
        until(page, "!video.seeking && frames_.length && Math.abs(frames_.at(-1) - video.currentTime) < 0.1")
        assert round(page.evaluate("frames_.at(-1)") * timeline.fps, 3) == timeline.chapters[number].start
        expect(buttons.nth(number)).to_have_attribute("aria-current", "true")
        expect(page.locator("nav [aria-current]")).to_have_count(1)


@needs_chromium
def test_a_chapter_is_found_on_a_server_that_knows_no_parts_of_files(
    address: str, shown: tuple[Timeline, Path], opened: Callable[..., Page]
) -> None:
    page = opened(address)
    video_of(page, shown[1].with_name(f"{NAME}.mp4"))
    until(page, "video.seekable.length && video.seekable.end(0) > 4")
    page.locator("nav button").nth(1).click()
    until(page, f"video.currentTime > {shown[0].chapters[1].start / shown[0].fps}")


@needs_chromium
def test_a_chapter_plays_on_and_captions_can_be_turned_off(
    shown: tuple[Timeline, Path], opened: Callable[..., Page]
) -> None:
    page = opened(shown[1].as_uri())
    video_of(page, shown[1].with_name(f"{NAME}.mp4"))
    page.locator("nav button").nth(0).click()
    until(page, "!video.paused && video.currentTime > 0.2")
    page.evaluate("video.pause()")
    assert page.evaluate("video.textTracks[0].cues[0].line") == -5  # above the player's bar
    button = page.locator("#captions")
    expect(button).to_have_text("Captions: on")
    button.focus()
    page.keyboard.press("Space")
    expect(button).to_have_text("Captions: off")
    assert page.evaluate("video.textTracks[0].mode") == "hidden"
    page.evaluate("video.textTracks[0].mode = 'showing'")  # as the player's own menu does
    expect(button).to_have_text("Captions: on")


@needs_chromium
@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("scheme", ["light", "dark"])
def test_nothing_stands_in_anyones_way(
    scheme: str, face: str, shown: tuple[Timeline, Path], opened: Callable[..., Page], tmp_path: Path
) -> None:
    shutil.copytree(shown[1].parent, tmp_path, dirs_exist_ok=True)  # the clip, too
    place = in_face(shown[1], face, tmp_path)
    for width, height in ((1280, 720), (360, 740)):
        page = opened(place.as_uri(), viewport={"width": width, "height": height}, color_scheme=scheme)
        assert page.locator("h1").inner_text() == NASTY and page.locator("img").count() == 0
        found = json.loads(json.dumps(Axe().run(page).response))["violations"]
        assert [(fault["id"], [node["html"] for node in fault["nodes"]]) for fault in found] == []
        assert page.evaluate("document.documentElement.scrollWidth <= innerWidth")
        small = page.evaluate(
            "[...document.querySelectorAll('button, a')].map(e => e.getBoundingClientRect())"
            ".filter(box => box.height < 24 || box.width < 24).length"
        )
        assert small == 0


@needs_chromium
def test_a_clip_that_cannot_be_played_is_told_of(folder: Path, opened: Callable[..., Page]) -> None:
    put(folder, ".mp4")
    page = opened(write_index(short_timeline(), folder)[0].as_uri())
    expect(page.get_by_role("alert")).to_contain_text("cannot play the clip")


@needs_chromium
def test_without_a_clip_the_page_runs_nothing(folder: Path, demo: Timeline, opened: Callable[..., Page]) -> None:
    put(folder, ".pptx")
    path = write_index(demo, folder)[0]
    page = opened(path.as_uri())
    expect(page.locator(".poster svg")).to_be_visible()
    read = Read(path.read_text(encoding="utf-8"))
    assert "script" not in [tag for tag, _ in read.tags] and "media-src" not in read.policy
    assert Axe().run(page).response["violations"] == []
