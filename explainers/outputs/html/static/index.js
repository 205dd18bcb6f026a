"use strict";
// The clip's captions and chapters. A page opened as a file may fetch nothing, so the cues stand in the page.
(() => {
  const video = document.getElementById("video");
  const told = JSON.parse(document.getElementById("cues").textContent);

  const track = video.addTextTrack("captions", told.label, told.language);
  for (const [start, end, text] of told.cues) track.addCue(new VTTCue(start, end, text));
  track.mode = "showing";
  // The player's bar is there while the clip stands still: captions then stand above it, or nobody could read them.
  const lift = () => {
    for (const cue of track.cues) cue.line = video.paused ? -5 : "auto";
  };
  for (const event of ["play", "pause"]) video.addEventListener(event, lift);

  const button = document.getElementById("captions");
  const say = () => {
    const shown = track.mode === "showing";
    button.textContent = shown ? button.dataset.on : button.dataset.off;
  };
  button.hidden = false;
  button.addEventListener("click", () => {
    track.mode = track.mode === "showing" ? "hidden" : "showing";
    say();
  });
  video.textTracks.addEventListener("change", say); // the player's own menu may have done it
  say();

  const chapters = [...document.querySelectorAll("nav button")];
  const at = (chapter) => Number(chapter.dataset.at);
  const mark = () => {
    const begun = chapters.filter((chapter) => at(chapter) <= video.currentTime + 0.02);
    for (const chapter of chapters) {
      if (chapter === begun.at(-1)) chapter.setAttribute("aria-current", "true");
      else chapter.removeAttribute("aria-current");
    }
  };
  for (const chapter of chapters) {
    chapter.addEventListener("click", () => {
      video.currentTime = at(chapter);
      video.play().catch(() => {}); // it stands at the chapter all the same
    });
  }
  for (const event of ["timeupdate", "seeking", "seeked", "play"]) video.addEventListener(event, mark);

  // A plain server may know no parts of files, and then no player can seek: the clip is fetched whole instead.
  const fetchWhole = async () => {
    if (!location.protocol.startsWith("http") || (video.seekable.length && video.seekable.end(0) > 0)) return;
    // Not through the cache, where it would wait for the player, which has stopped reading half-way.
    const clip = await fetch(video.src, { cache: "no-store" }).then((answer) => answer.blob()).catch(() => null);
    if (clip === null) return; // it plays, if only from its beginning
    const { currentTime, paused } = video;
    video.src = URL.createObjectURL(clip);
    video.currentTime = currentTime;
    if (!paused) video.play().catch(() => {});
  };
  if (video.readyState > 0) fetchWhole();
  else video.addEventListener("loadedmetadata", fetchWhole, { once: true });

  const trouble = () => {
    const place = document.getElementById("trouble");
    place.textContent = place.dataset.words;
  };
  video.addEventListener("error", trouble);
  if (video.error) trouble();
})();
