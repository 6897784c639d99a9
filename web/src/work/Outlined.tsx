// A shape given by outlines: a field for every corner, and for the sizes that its views do not show.

import type { Spot } from "../api/types";
import { Field } from "../parts/Field";
import { AXES, VIEWS, type View } from "../show/axes";
import { answer, changeFrom, written } from "../state/job";
import { at } from "../state/path";
import { words } from "../words";
import { drawn } from "./drag";
import { Sizes } from "./Sizes";

const { form } = words;
type Owner = "space" | "body";

const outlines = (owner: Owner) => VIEWS.filter(({ key }) => written(`${owner}.${key}`) !== undefined);

export function isOutlined(owner: Owner): boolean {
  return outlines(owner).length > 0;
}

export function Outlined({ owner }: { owner: Owner }) {
  const views = outlines(owner);
  const sizes = [
    ["length", form.bodyLength],
    ["width", form.bodyWidth],
    ["height", form.bodyHeight],
  ] as const;
  return (
    <>
      {views.map((view) => (
        <Corners key={view.key} path={`${owner}.${view.key}`} si={`${owner}.shape.${view.key}_m`} view={view} />
      ))}
      {sizes
        .filter(([key], axis) => written(`${owner}.${key}`) !== undefined || views.every(({ across, up }) => across !== axis && up !== axis))
        .map(([key, label]) => (
          <Field key={key} path={`${owner}.${key}`} label={label} kind="length" si={`${owner}.shape.${key}_m`} />
        ))}
    </>
  );
}

/** The corners of one view; emptying both coordinates of a corner removes it. */
function Corners({ path, si, view }: { path: string; si: string; view: View }) {
  const corners = written(path);
  const count = Array.isArray(corners) ? corners.length : 0;
  // Midway between its neighbours, so that the shape stays the same.
  const more = () => {
    const spots = at(answer.value?.job, si) as Spot[] | null | undefined;
    const [last, first] = [spots?.at(-1), spots?.[0]];
    return spots && last && first ? [{ path: `${path}[${spots.length + 1}]`, insert: [drawn((last[0] + first[0]) / 2), drawn((last[1] + first[1]) / 2)] }] : [];
  };
  return (
    <details class="corners">
      <summary>{form.corners(words.space[view.key], count)}</summary>
      {Array.from({ length: count }, (_, index) => (
        <Sizes key={index} path={`${path}[${index + 1}]`} si={`${si}[${index + 1}]`} label={form.corner(index + 1)} names={[AXES[view.across], AXES[view.up]]} />
      ))}
      <button type="button" class="quiet" onClick={() => void changeFrom(more)}>
        {form.addCorner}
      </button>
    </details>
  );
}
