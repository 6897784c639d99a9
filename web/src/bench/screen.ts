// The screen of the phone at the bench, kept awake.

import { signal } from "@preact/signals";

/** What keeps the screen on: the browser's own lock, a picture that plays, nothing until it is touched, nothing. */
export type Awake = "lock" | "picture" | "touch" | "no";
export const awake = signal<Awake>("no");

export function keepAwake(): void {
  if (!navigator.wakeLock) return playAfterTouch();
  const ask = () =>
    navigator.wakeLock
      .request("screen")
      .then((lock) => {
        awake.value = "lock";
        lock.addEventListener("release", () => (awake.value = "no"));
      })
      .catch(() => (awake.value = "no"));
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void ask();
  });
  void ask();
}

let picture: HTMLVideoElement | null = null;

/**
 * Over plain http there is no lock. Browsers keep the screen on while a video plays that they can see; one that
 * comes from a stream may be as small and as mute as it likes (Chromium, `video_wake_lock.cc`; Firefox,
 * `HTMLVideoElement.cpp`). It begins with a touch, as a person's own doing.
 */
function playAfterTouch(): void {
  if (picture) return;
  if (!("captureStream" in HTMLCanvasElement.prototype)) return;
  awake.value = "touch";
  addEventListener("pointerdown", () => void play(), { once: true });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void picture?.play().catch(() => undefined);
  });
}

async function play(): Promise<void> {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 16;
  const paper = canvas.getContext("2d")!;
  // A stream has a picture only while something is drawn.
  let beats = 0;
  setInterval(() => {
    paper.fillStyle = beats++ % 2 === 0 ? "#000" : "#111";
    paper.fillRect(0, 0, 16, 16);
  }, 1000);
  picture = document.createElement("video");
  picture.className = "keeps-awake";
  picture.muted = picture.loop = picture.playsInline = true;
  picture.setAttribute("aria-hidden", "true");
  picture.addEventListener("playing", () => (awake.value = "picture"));
  picture.addEventListener("pause", () => (awake.value = "no"));
  picture.srcObject = canvas.captureStream();
  document.body.append(picture);
  await picture.play().catch(() => (awake.value = "no"));
}
