// The form fields of the job, grouped by the stage that they belong to.

import type { ComponentChildren } from "preact";
import { Field } from "../parts/Field";
import { Rows } from "../parts/Rows";
import type { Written } from "../api/types";
import { about, change, written } from "../state/job";
import { system } from "../state/units";
import { keyName, words } from "../words";
import { compartment, dryRoom, INNER, obstacle, opening, RIB, ROD, SHEET } from "./columns";
import { isOutlined, Outlined } from "./Outlined";
import { Sizes } from "./Sizes";

const form = words.form;
const AXES = [form.x, form.y, form.z];

export function SpaceForm() {
  return (
    <>
      <Group label={form.job}>
        <Field path="job.name" label={form.jobName} kind="name" />
        <Field path="job.customer" label={form.customer} kind="name" />
        <Field path="job.duty" label={form.duty} />
        <Field path="job.lengths" label={form.lengths} hint={form.lengthsHint} />
      </Group>
      <Group label={form.space}>
        {isOutlined("space") ? <Outlined owner="space" /> : <Sizes path="space.box" si="space.shape.box_m" label={form.spaceBox} names={AXES} />}
        <Field path="space.clearance" label={form.clearance} kind="length" si="space.clearance_m" />
        <Field path="space.keep_above" label={form.keepAbove} kind="length" si="space.keep_above_m" />
        <WayIn />
      </Group>
      <Rows path="space.obstacle" si="space.obstacles" label={form.obstacles} one={form.obstacle} columns={obstacle} />
      <BodyForm />
      <LiquidForm />
    </>
  );
}

/** The access opening: two sizes, or a section of its own that also has its position. */
function WayIn() {
  const section = written("space.way_in");
  if (section === undefined || Array.isArray(section)) {
    return (
      <>
        <Sizes path="space.way_in" si="space.way_in_m" label={form.wayIn} names={[form.wayInWide, form.wayInHigh]} />
        {Array.isArray(section) && <Sided sizes={section} />}
      </>
    );
  }
  return (
    <>
      <Field path="space.way_in.width" label={`${form.wayIn}: ${form.wayInWide}`} kind="length" />
      <Field path="space.way_in.height" label={`${form.wayIn}: ${form.wayInHigh}`} kind="length" />
      <Field path="space.way_in.side" label={`${form.wayIn}: ${form.wayInSide}`} hint={form.wayInSideHint} />
      <Field path="space.way_in.clearance" label={form.wayInClearance} kind="length" si="space.way_in.clearance_m" />
      <Sizes path="space.way_in.at" si="space.way_in.at_m" label={form.wayInAt} names={inPlane(written("space.way_in.side"))} />
    </>
  );
}

/** The axes of the plane of a side. */
function inPlane(side: unknown): readonly string[] {
  if (side === "front" || side === "rear") return ["y", "z"];
  return side === "above" || side === "below" ? ["x", "y"] : ["x", "z"];
}

/** Turns the two sizes into a section once a side is chosen. */
function Sided({ sizes: [width, height] }: { sizes: Written[] }) {
  const sides = about.value?.choices["space.way_in.side"] ?? [];
  return (
    <label class="field">
      {`${form.wayIn}: ${form.wayInSide}`}
      <select
        value=""
        onChange={(event) =>
          void change(
            { path: "space.way_in", remove: true },
            { path: "space.way_in.width", set: width ?? 0 },
            { path: "space.way_in.height", set: height ?? 0 },
            { path: "space.way_in.side", set: event.currentTarget.value },
          )
        }
      >
        <option value="">{words.field.none}</option>
        {sides.map((side) => (
          <option key={side}>{side}</option>
        ))}
      </select>
      <small class="hint">{form.wayInSideHint}</small>
    </label>
  );
}

function BodyForm() {
  const fitted = written("body.fitted") !== undefined;
  return (
    <Group label={form.body}>
      {fitted && <Field path="body.fitted" label={form.fitted} />}
      {!fitted && !isOutlined("body") && <Sizes path="body.box" si="body.shape.box_m" label={form.bodyBox} names={AXES} />}
      {isOutlined("body") && <Outlined owner="body" />}
      {written("space") !== undefined && !fitted && <Sizes path="body.at" si="body.at_m" label={form.bodyAt} names={["x", "y", "z"]} />}
      <Field path="body.thickness" label={form.thickness} kind="thickness" si="body.thickness_m" hint={form.thicknessHint} />
    </Group>
  );
}

function LiquidForm() {
  return (
    <Group label={form.liquid}>
      <Field path="liquid.kind" label={form.kind} />
      <Field path="liquid.density" label={form.density} />
      <Field path="liquid.wanted" label={form.wanted} hint={form.wantedHint[system.value]} />
      <Field path="liquid.air_space" label={form.airSpace} kind="length" si="liquid.air_space_m" />
      <Field path="liquid.coldest" label={form.coldest} kind="temperature" si="liquid.coldest_k" />
      <Field path="liquid.warmest" label={form.warmest} kind="temperature" si="liquid.warmest_k" />
      <Field path="liquid.years" label={form.years} kind="years" />
    </Group>
  );
}

export function TankForm() {
  return (
    <>
      <Rows path="inner" si="inner" label={form.inners} one={form.inner} columns={() => INNER} />
      <Rows path="compartment" si="compartments" label={form.compartments} one={form.compartment} columns={compartment} />
      <Rows path="dry" si="dry" label={form.dryRooms} one={form.dryRoom} columns={dryRoom} />
      <Rows path="rib" si="ribs" label={form.ribs} one={form.rib} columns={() => RIB} />
      <Rows path="opening" si="openings" label={form.openings} one={form.opening} columns={opening} />
    </>
  );
}

export function HoldForm() {
  return (
    <>
      <Group label={form.trimHeading}>
        <Field path="trim.heel" label={form.heel} />
        <Field path="trim.pitch" label={form.pitch} />
        <Field path="support.kind" label={form.support} />
        <Field path="vehicle.payload" label={form.payload} kind="mass" si="vehicle.payload_kg" />
      </Group>
      <Group label={form.checks}>
        <Field path="checks.safety_factor" label={form.safety} kind="number" />
        <Field path="checks.bulge" label={form.bulge} kind="length" si="checks.bulge_m" />
        <Field path="checks.filled_to" label={form.filledTo} hint={form.filledToHint} />
      </Group>
    </>
  );
}

export function StockForm() {
  return (
    <>
      <Group label={form.stock}>
        <Field path="stock.material" label={form.material} />
        <Field path="stock.colour" label={form.colour} />
      </Group>
      <Rows path="stock.sheet" si="stock.sheets" label={form.sheets} one={form.sheet} columns={() => SHEET} />
      <Group label={form.cutting}>
        <Field path="shop.cutting" label={form.cutting} />
        <Field path="shop.kerf" label={form.kerf} kind="length" si="shop.kerf_m" />
        <Field path="shop.trim" label={form.trim} kind="length" si="shop.trim_m" />
      </Group>
    </>
  );
}

export function ShopForm() {
  return (
    <>
      <Rows path="stock.rod" si="stock.rods" label={form.rods} one={form.rod} columns={() => ROD} />
      <Group label={form.shop}>
        <Field path="shop.process" label={form.process} />
        <Field path="shop.nozzle" label={form.nozzle} />
        <Field path="shop.reach" label={form.reach} kind="length" si="shop.reach_m" />
        <Field path="shop.gun_length" label={form.gunLength} kind="length" si="shop.gun_length_m" />
        <Field path="shop.gun_diameter" label={form.gunDiameter} kind="length" si="shop.gun_diameter_m" />
        <Field path="shop.hand" label={form.hand} kind="length" si="shop.hand_m" />
      </Group>
    </>
  );
}

/** The rates that the hours are summed from, in the order of the sum. */
const RATES = [
  "cut_speed",
  "bevel_speed",
  "hole_time",
  "panel_time",
  "clamp_time",
  "tack_speed",
  "scrape_speed",
  "weld_speed",
  "extruder",
  "output",
  "run_time",
  "turn_time",
  "opening_time",
  "fill_rate",
  "stage_time",
].map((key) => `shop.${key}`);

export function RatesForm() {
  return (
    <Group label={words.weld.rates}>
      {RATES.map((path) => (
        <Field key={path} path={path} label={keyName(path)} />
      ))}
    </Group>
  );
}

function Group({ label, children }: { label: string; children: ComponentChildren }) {
  return (
    <fieldset>
      <legend>{label}</legend>
      <div class="fields">{children}</div>
    </fieldset>
  );
}
