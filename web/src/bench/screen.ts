// Keeps the screen of the phone at the bench awake.

import { signal } from "@preact/signals";

/** What keeps the screen on: a wake lock, a video that plays, nothing until the page is touched, nothing. */
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

let video: HTMLVideoElement | null = null;

/**
 * Over plain http there is no lock. Browsers keep the screen on while a video plays that they can see; one that
 * comes from a stream may be as small and as mute as it likes (Chromium, `video_wake_lock.cc`; Firefox,
 * `HTMLVideoElement.cpp`). It must be started by a touch.
 */
function playAfterTouch(): void {
  if (video) return;
  if (!("captureStream" in HTMLCanvasElement.prototype)) return;
  awake.value = "touch";
  addEventListener("pointerdown", () => void play(), { once: true });
  document.addEventListener("visibilitychange", () => {
    if (document.visibilityState === "visible") void video?.play().catch(() => undefined);
  });
}

async function play(): Promise<void> {
  const canvas = document.createElement("canvas");
  canvas.width = canvas.height = 16;
  const context = canvas.getContext("2d")!;
  // A stream has frames only while something is drawn.
  let frames = 0;
  setInterval(() => {
    context.fillStyle = frames++ % 2 === 0 ? "#000" : "#111";
    context.fillRect(0, 0, 16, 16);
  }, 1000);
  video = document.createElement("video");
  video.className = "keeps-awake";
  video.muted = video.loop = video.playsInline = true;
  video.setAttribute("aria-hidden", "true");
  video.addEventListener("playing", () => (awake.value = "picture"));
  video.addEventListener("pause", () => (awake.value = "no"));
  video.srcObject = canvas.captureStream();
  document.body.append(video);
  await video.play().catch(() => (awake.value = "no"));
}
