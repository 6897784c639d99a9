// The measured space and the tank in it: three views to draw in, and a field for every size.

import { useEffect, useState } from "preact/hooks";
import type { Edit, Written } from "../api/types";
import { Stage } from "../parts/Stage";
import { VIEWS, type View } from "../show/axes";
import { answer, change, changeFrom, written } from "../state/job";
import { at } from "../state/path";
import { words } from "../words";
import { blocksOfJob, drawn } from "./drag";
import { SpaceForm } from "./Forms";
import { SpaceView } from "./SpaceView";

export function Space() {
  const [drawing, setDrawing] = useState(false);
  useEffect(() => {
    if (!drawing) return;
    const leave = (event: KeyboardEvent) => event.key === "Escape" && setDrawing(false);
    addEventListener("keydown", leave);
    return () => removeEventListener("keydown", leave);
  }, [drawing]);
  const clearance = Number(at(answer.value?.job, "space.clearance_m") ?? 0);
  const drew = (low: [number, number], high: [number, number], view: View) => {
    const whole = blocksOfJob.value.find((block) => block.key === "space");
    const from = [...(whole?.low ?? [0, 0, 0])];
    const to = [...(whole?.high ?? [0, 0, 0])];
    [from[view.across], from[view.up]] = low;
    [to[view.across], to[view.up]] = high;
    setDrawing(false);
    void change({
      path: "space.obstacle",
      append: { name: freeName(), from: from.map((value) => drawn(value)), to: to.map((value) => drawn(value)) },
    });
  };
  return (
    <Stage id="space">
      <div class="two">
        <div class="picture">
          <div class="views">
            {VIEWS.map((view) => (
              <SpaceView key={view.key} view={view} clearance={clearance} drawing={drawing} drew={drew} />
            ))}
          </div>
          <p class="hint">{drawing ? words.space.drawing : words.space.drag}</p>
          <div class="row">
            {written("space") !== undefined && (
              <button type="button" aria-pressed={drawing} onClick={() => setDrawing(!drawing)}>
                {words.space.drawObstacle}
              </button>
            )}
            {written("space.box") !== undefined && <AsOutline />}
          </div>
        </div>
        <div class="sizes-typed">
          <SpaceForm />
        </div>
      </div>
    </Stage>
  );
}

/** An obstacle name that is not in use. */
function freeName(): string {
  const obstacles = (written("space.obstacle") as { name?: unknown }[] | undefined) ?? [];
  const taken = obstacles.map((one) => one.name);
  for (let count = obstacles.length + 1; ; count++) {
    const name = `${words.form.obstacle} ${count}`;
    if (!taken.includes(name)) return name;
  }
}

/** Turns the box of the space into a plan outline of the same height. */
function AsOutline() {
  const outlined = () => {
    const [x, y, z] = (written("space.box") as Written[] | undefined) ?? [];
    if (x === undefined || y === undefined || z === undefined) return [];
    return [
      { path: "space.box", remove: true },
      { path: "space.plan", set: [[0, 0], [x, 0], [x, y], [0, y]] },
      { path: "space.height", set: z },
    ] satisfies Edit[];
  };
  return (
    <button type="button" class="quiet" onClick={() => void changeFrom(outlined)}>
      {words.space.outline}
    </button>
  );
}
