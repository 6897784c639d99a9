// What belongs to a step beside its text: what comes before it, settings, what is waited for, warnings.

import type { ComponentChildren } from "preact";
import type { BenchStep } from "../api/types";
import { range } from "../show/figure";
import { words } from "../words";
import { Lines } from "./Lines";

const { bench } = words;

type Details = Pick<BenchStep, "prep" | "settings" | "cautions"> & Partial<Pick<BenchStep, "held_by" | "corners" | "comes_off">>;

/** `children` is what shows its wait. */
export function StepDetails({ step, children }: { step: Details; children: ComponentChildren }) {
  return (
    <>
      {step.prep.length > 0 && (
        <section>
          <h3>{bench.prep}</h3>
          <ul>
            {step.prep.map(({ id, text }) => (
              <li key={id}>{text}</li>
            ))}
          </ul>
        </section>
      )}
      <Lines title={bench.heldBy} lines={step.held_by ?? []} />
      <Lines title={bench.corners} lines={step.corners ?? []} />
      {step.settings.length > 0 && (
        <section>
          <h3>{bench.settings}</h3>
          <dl class="settings">
            {step.settings.map((one) => (
              <div key={`${one.tool} ${one.quantity}`}>
                <dt>
                  {one.tool}: {one.quantity}
                </dt>
                <dd>{range(one.low, one.high, one.unit)}</dd>
              </div>
            ))}
          </dl>
        </section>
      )}
      <Lines title={bench.comesOff} lines={step.comes_off ?? []} />
      {children}
      {step.cautions.length > 0 && (
        <section class="cautions">
          <h3>⚠ {bench.cautions}</h3>
          <ul>
            {step.cautions.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
    </>
  );
}
