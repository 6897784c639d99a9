// The sizes and choices of the job, to be typed. Each group stands at the stage it belongs to.

import type { ComponentChildren } from "preact";
import { Field } from "../parts/Field";
import { Rows } from "../parts/Rows";
import { written } from "../state/job";
import { system } from "../state/units";
import { words } from "../words/en";
import { INNER, obstacle, opening, ROD, SHEET } from "./columns";

const form = words.form;
const AXES = [form.x, form.y, form.z];

export function SpaceForm() {
  const boxed = written("space.plan") === undefined && written("space.side") === undefined && written("space.front") === undefined;
  return (
    <>
      <Group label={form.job}>
        <Field path="job.name" label={form.jobName} />
        <Field path="job.customer" label={form.customer} />
        <Field path="job.duty" label={form.duty} />
        <Field path="job.lengths" label={form.lengths} />
      </Group>
      <Group label={form.space}>
        {boxed && <Sizes path="space.box" si="space.shape.box_m" label={form.spaceBox} names={AXES} />}
        {!boxed && <Field path="space.height" label={form.bodyHeight} kind="length" si="space.shape.height_m" />}
        {!boxed && <Field path="space.length" label={form.bodyLength} kind="length" si="space.shape.length_m" />}
        <Field path="space.clearance" label={form.clearance} kind="length" si="space.clearance_m" />
        <Field path="space.keep_above" label={form.keepAbove} kind="length" si="space.keep_above_m" />
        <Sizes path="space.way_in" si="space.way_in_m" label={form.wayIn} names={[form.wayInWide, form.wayInHigh]} />
      </Group>
      <Rows path="space.obstacle" si="space.obstacles" label={form.obstacles} one={form.obstacle} columns={obstacle} />
      <BodyForm />
      <LiquidForm />
    </>
  );
}

function BodyForm() {
  const outlined = (["plan", "side", "front"] as const).some((view) => written(`body.${view}`) !== undefined);
  return (
    <Group label={form.body}>
      {!outlined && <Sizes path="body.box" si="body.shape.box_m" label={form.bodyBox} names={AXES} />}
      {outlined && <Field path="body.length" label={form.bodyLength} kind="length" si="body.shape.length_m" />}
      {outlined && <Field path="body.width" label={form.bodyWidth} kind="length" si="body.shape.width_m" />}
      {outlined && <Field path="body.height" label={form.bodyHeight} kind="length" si="body.shape.height_m" />}
      {written("space") !== undefined && <Sizes path="body.at" si="body.at_m" label={form.bodyAt} names={["x", "y", "z"]} />}
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
      <Rows path="opening" si="openings" label={form.openings} one={form.opening} columns={opening} />
    </>
  );
}

export function HoldForm() {
  return (
    <>
      <Group label={form.trimHeading}>
        <Field path="support.kind" label={form.support} />
        <Field path="vehicle.payload" label={form.payload} kind="mass" si="vehicle.payload_kg" />
      </Group>
      <Group label={form.checks}>
        <Field path="checks.safety_factor" label={form.safety} kind="number" />
        <Field path="checks.bulge" label={form.bulge} kind="length" si="checks.bulge_m" />
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
        <Field path="shop.headroom" label={form.headroom} kind="length" si="shop.headroom_m" />
      </Group>
    </>
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

function Sizes({ path, si, label, names }: { path: string; si: string; label: string; names: readonly string[] }) {
  return (
    <div class="sizes" role="group" aria-label={label}>
      <span class="sizes-label">{label}</span>
      {names.map((name, index) => (
        <Field key={name} path={`${path}[${index + 1}]`} si={`${si}[${index + 1}]`} label={name} kind="length" />
      ))}
    </div>
  );
}
