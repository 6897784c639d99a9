// The tank in 3D with labels over it; a sketch where the browser has no WebGL. The 3D code is loaded when
// the view first scrolls into sight.

import { useEffect, useRef, useState } from "preact/hooks";
import type { Point } from "../api/types";
import { Sketch } from "../parts/Sketch";
import { panelShape } from "../show/shape";
import { model } from "../state/job";
import { words } from "../words";
import type { Label, Look, TankScene } from "./scene";

interface ViewProps {
  look: Look;
  labels: readonly Label[];
  label: string;
  pick?: (mark: string) => void;
}

const LOOKS: readonly [string, Point][] = [
  [words.tank.corner, [-0.9, -1.5, 0.9]],
  [words.tank.above, [0, -0.001, 1]],
  [words.tank.front, [1, 0, 0.05]],
  [words.tank.side, [0, -1, 0.05]],
];

export function View3d({ look, labels, label, pick }: ViewProps) {
  const place = useRef<HTMLDivElement>(null);
  const paper = useRef<HTMLDivElement>(null);
  const [scene, setScene] = useState<TankScene | null>(null);
  const [flat, setFlat] = useState(false);
  const shapes = model.value;

  useEffect(() => {
    let made: TankScene | null = null;
    let gone = false;
    const seen = new IntersectionObserver(
      (entries) => {
        if (!entries.some((entry) => entry.isIntersecting)) return;
        seen.disconnect();
        void import("./scene")
          .then(({ TankScene }) => {
            if (gone) return;
            made = new TankScene(place.current!);
            setScene(made);
          })
          .catch(() => setFlat(true));
      },
      { rootMargin: "300px" },
    );
    seen.observe(place.current!);
    return () => {
      gone = true;
      seen.disconnect();
      made?.dispose();
    };
  }, []);

  useEffect(() => {
    if (!scene || !shapes) return;
    scene.onDraw = () => setLabels(scene, paper.current, labels, shapes.panels, look.explode);
    scene.show(shapes, look);
  }, [scene, shapes, look, labels]);

  useEffect(() => {
    if (scene && look.spot) scene.lookAt(look.spot);
  }, [scene, look.spot]);

  const keys = (event: KeyboardEvent) => {
    const turns: Record<string, [number, number, number]> = {
      ArrowLeft: [-0.15, 0, 1],
      ArrowRight: [0.15, 0, 1],
      ArrowUp: [0, 0.12, 1],
      ArrowDown: [0, -0.12, 1],
      "+": [0, 0, 0.88],
      "-": [0, 0, 1.14],
    };
    const turn = turns[event.key];
    if (!turn || !scene) return;
    event.preventDefault();
    scene.turn(...turn);
  };

  if (flat && shapes) {
    return (
      <div class="solid">
        <p class="hint">{words.tank.none}</p>
        <Sketch shapes={shapes.panels.map(panelShape)} lit={look.lit} label={label} />
      </div>
    );
  }
  return (
    <div class="solid">
      <div class="canvas" ref={place} tabIndex={0} role="application" aria-label={`${label}. ${words.tank.keys}`} onKeyDown={keys}>
        <div class="labels" ref={paper}>
          {labels.map(({ text, mark }) => (
            <button key={mark + text} type="button" tabIndex={-1} data-mark={mark} class={look.lit.includes(mark) ? "lit" : ""} onClick={() => pick?.(mark)}>
              {text}
            </button>
          ))}
        </div>
      </div>
      <div class="choice" role="group" aria-label={words.tank.turnTo}>
        <span class="choice-label" aria-hidden="true">
          {words.tank.turnTo}
        </span>
        {LOOKS.map(([name, way]) => (
          <button type="button" key={name} onClick={() => scene?.lookFrom(way)}>
            {name}
          </button>
        ))}
      </div>
    </div>
  );
}

function setLabels(
  scene: TankScene,
  paper: HTMLElement | null,
  labels: readonly Label[],
  panels: NonNullable<typeof model.value>["panels"],
  explode: number,
): void {
  const placed: DOMRect[] = [];
  labels.forEach((label, index) => {
    const button = paper?.children[index] as HTMLElement | undefined;
    const panel = panels.find((one) => one.mark === label.mark);
    if (!button) return;
    const at = panel ? scene.middle(panel.solid, explode) : label.at;
    const isSeen = !scene.isCutAway(at);
    button.style.visibility = isSeen ? "visible" : "hidden";
    if (!isSeen) return;
    button.classList.toggle("behind", panel !== undefined && scene.isBehind(at, label.mark));
    const [x, y] = clear(scene.toScreen(at), button.offsetWidth, button.offsetHeight, placed);
    button.style.transform = `translate(-50%, -50%) translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
  });
}

/** The nearest position below or above that no label covers yet. */
function clear([x, y]: [number, number], wide: number, high: number, placed: DOMRect[]): [number, number] {
  for (const step of [0, 1, -1, 2, -2, 3]) {
    const down = y + step * high;
    const box = new DOMRect(x - wide / 2, down - high / 2, wide, high);
    const isFree = placed.every((other) => box.right <= other.left || box.left >= other.right || box.bottom <= other.top || box.top >= other.bottom);
    if (isFree) {
      placed.push(box);
      return [x, down];
    }
  }
  return [x, y];
}
