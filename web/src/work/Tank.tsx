// The tank in 3D: rotated, exploded, cut through, filled.

import { useComputed, useSignal, type Signal } from "@preact/signals";
import { useEffect, useState } from "preact/hooks";
import { ask, jobPath } from "../api/client";
import type { Liquid } from "../api/types";
import { Choice } from "../parts/Choice";
import { Stage } from "../parts/Stage";
import { thicknessColours } from "../show/colours";
import { degrees, length, sheetThickness, size, volume } from "../show/figure";
import { select, selection } from "../state/selection";
import { answer, model, plan } from "../state/job";
import type { Look } from "../solid/scene";
import { View3d } from "../solid/View3d";
import { words } from "../words";
import { TankForm } from "./Forms";

/** More labels than this overlap. */
const CROWDED = 8;

export function Tank() {
  const explode = useSignal(0.25);
  const cut = useSignal(0);
  const axis = useSignal<"x" | "y" | "z">("y");
  const names = useSignal<"on" | "off">("on");
  const liquid = useSignal<Look["liquid"]>(null);

  const colours = useComputed(() => thicknessColours(model.value?.panels.map((panel) => panel.thickness_m) ?? []));
  const look = useComputed<Look>(() => ({
    explode: explode.value,
    cut: cut.value > 0 ? { axis: { x: 0, y: 1, z: 2 }[axis.value] as 0 | 1 | 2, at: axis.value === "z" ? 1 - cut.value : cut.value } : null,
    colours: new Map(model.value?.panels.map((panel) => [panel.mark, colours.value.get(panel.thickness_m)!])),
    tints: new Map(),
    lit: selection.value,
    seams: [],
    bulge: 0,
    spot: null,
    liquid: liquid.value,
    faint: liquid.value !== null,
  }));
  const labels = useComputed(() =>
    names.value === "off"
      ? []
      : (model.value?.panels ?? []).map(({ mark, name, thickness_m }) => ({ mark, text: label(mark, name, thickness_m), at: [0, 0, 0] as [number, number, number] })),
  );
  // Names where there is room for them; only marks on a tank of many panels.
  const label = (mark: string, name: string, thickness: number) => {
    const isCrowded = (model.value?.panels.length ?? 0) > CROWDED && !selection.value.includes(mark);
    return [isCrowded ? mark : `${mark} ${name}`, colours.value.size > 1 && sheetThickness(thickness)].filter(Boolean).join(" · ");
  };
  return (
    <Stage id="tank">
      <div class="two">
        <div class="picture">
          <View3d look={look.value} labels={labels.value} label={words.tank.picture} pick={(mark) => select(mark)} />
          <ul class="legend" aria-label={words.tank.thickness}>
            {[...colours.value].map(([thickness, colour]) => (
              <li key={thickness}>
                <i style={{ background: colour }} /> {sheetThickness(thickness)}
              </li>
            ))}
          </ul>
          <div class="knobs">
            <Slider label={words.tank.explode} value={explode.value} set={(value) => (explode.value = value)} />
            <Slider label={words.tank.cutThrough} value={cut.value} set={(value) => (cut.value = value)} />
            <Choice label={words.tank.cutAxis} value={axis.value} options={[["x", "x"], ["y", "y"], ["z", "z"]]} choose={(to) => (axis.value = to)} />
            <Choice label={words.tank.names} value={names.value} options={[["on", words.field.yes], ["off", words.field.no]]} choose={(to) => (names.value = to)} />
          </div>
          <LiquidKnobs shown={liquid} />
          <PanelTable />
        </div>
        <div class="sizes-typed">
          <TankForm />
        </div>
      </div>
    </Stage>
  );
}

export function Slider(props: { label: string; value: number; max?: number; min?: number; step?: number; shown?: string; set: (value: number) => void }) {
  return (
    <label class="slider">
      <span>
        {props.label} {props.shown && <b>{props.shown}</b>}
      </span>
      <input
        type="range"
        min={props.min ?? 0}
        max={props.max ?? 1}
        step={props.step ?? 0.01}
        value={props.value}
        aria-valuetext={props.shown}
        onInput={(event) => props.set(event.currentTarget.valueAsNumber)}
      />
    </label>
  );
}

const TILT = Math.PI / 6;

/** Level and tilt go to the server, which returns the volume and the surface. */
function LiquidKnobs({ shown }: { shown: Signal<Look["liquid"]> }) {
  const rooms = model.value?.cavities ?? [];
  const [room, setRoom] = useState("");
  const [dip, setDip] = useState<number | null>(null);
  const [heel, setHeel] = useState(0);
  const [pitch, setPitch] = useState(0);
  const [now, setNow] = useState<Liquid | null>(null);
  const cavity = rooms.find((one) => one.name === room) ?? rooms[0];
  const highest = now?.highest_dip_m ?? plan.value?.gauge[0]?.rows.at(-1)?.dip_m ?? 1;
  const name = answer.value?.name;
  const etag = model.value?.etag;

  useEffect(() => {
    if (dip === null || !cavity || !name) {
      shown.value = null;
      return;
    }
    const gone = new AbortController();
    const query = new URLSearchParams({ compartment: cavity.name, dip_m: String(dip), heel_rad: String(heel), pitch_rad: String(pitch) });
    ask<Liquid>(jobPath(name, `liquid?${query}`), { signal: gone.signal })
      .then((liquid) => {
        setNow(liquid);
        shown.value = { ...liquid.plane, surfaces: liquid.surfaces, cavity: cavity.solid };
      })
      .catch(() => undefined);
    return () => gone.abort();
  }, [dip, heel, pitch, cavity, name, etag, shown]);

  return (
    <div class="knobs liquid">
      {rooms.length > 1 && (
        <label class="field">
          {words.tank.compartment}
          <select value={cavity?.name} onChange={(event) => setRoom(event.currentTarget.value)}>
            {rooms.map((one) => (
              <option key={one.name}>{one.name}</option>
            ))}
          </select>
        </label>
      )}
      <Slider label={words.tank.dip} value={dip ?? 0} max={highest} step={highest / 200} shown={length(dip ?? 0)} set={(value) => setDip(value > 0 ? value : null)} />
      <Slider label={words.tank.heel} value={heel} min={-TILT} max={TILT} step={Math.PI / 360} shown={degrees(heel)} set={setHeel} />
      <Slider label={words.tank.pitch} value={pitch} min={-TILT} max={TILT} step={Math.PI / 360} shown={degrees(pitch)} set={setPitch} />
      <output class="holds" aria-live="polite">
        {dip !== null && now ? `${words.tank.liquid} ${words.tank.holds(volume(now.volume_m3))}` : ""}
      </output>
    </div>
  );
}

function PanelTable() {
  return (
    <div class="table-wrap" tabIndex={0} role="region" aria-label={words.tank.panel}>
      <table>
        <thead>
          <tr>
            <th scope="col">{words.tank.panel}</th>
            <th scope="col">{words.tank.thickness}</th>
            <th scope="col">{words.tank.cutSize}</th>
          </tr>
        </thead>
        <tbody>
          {plan.value?.panels.map((panel) => (
            <tr key={panel.mark} class={selection.value.includes(panel.mark) ? "lit" : ""}>
              <th scope="row">
                <button type="button" class="plain" onClick={() => select(panel.mark)}>
                  {panel.mark} {panel.name}
                </button>
              </th>
              <td>{sheetThickness(panel.thickness_m)}</td>
              <td>{size(panel.cut.size_m)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}
