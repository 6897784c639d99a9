// What fits: the bodies that the server offers for the space, side by side, each with a button to use it.

import { useEffect, useState } from "preact/hooks";
import type { Edit, Finding, Fit, Offer } from "../api/types";
import { FindingText } from "../parts/FindingText";
import { Pairs } from "../parts/Pairs";
import { ServerText } from "../parts/ServerText";
import { Sketch } from "../parts/Sketch";
import { Stage } from "../parts/Stage";
import { hours, mass, run, volume } from "../show/figure";
import { facetShape } from "../show/shape";
import { answer, changeFrom, runWork, written } from "../state/job";
import { system, type System } from "../state/units";
import { words } from "../words";

const { fits } = words;

/** The bodies found, their findings, and the version of the job that they were found for. */
type Found = Fit & { findings: Finding[]; etag: string; units: System };

export function Fits() {
  const [fit, setFit] = useState<Found | "asking" | "unsupported" | null>(null);
  const find = async () => {
    const { name, etag } = answer.value!;
    const units = system.value;
    setFit("asking");
    const came = await runWork<{ fit: Fit; findings: Finding[] }>(name, "fit");
    setFit(came === null || came === "unsupported" ? came : { ...came.fit, findings: came.findings, etag, units });
  };
  const found = fit !== null && typeof fit === "object" ? fit : null;
  const units = system.value;
  useEffect(() => {
    // Sentences come in the units of the request.
    if (found && found.units !== units) void find();
  }, [units, found]);
  return (
    <Stage id="fits">
      <div class="row">
        <button type="button" aria-disabled={fit === "asking"} onClick={() => fit !== "asking" && void find()}>
          {fits.ask}
        </button>
        <p role="status">{fit === "asking" ? fits.asking : fit === "unsupported" ? fits.none : ""}</p>
      </div>
      {found && found.etag !== answer.value!.etag && (
        <p class="warn" role="status">
          {fits.old}
        </p>
      )}
      {found && (
        <ol class="findings">
          {found.findings.map((finding, index) => (
            <li key={index} class={`finding ${finding.grade}`}>
              <FindingText finding={finding} />
            </li>
          ))}
        </ol>
      )}
      {found?.offers.length === 0 && <p>{fits.nothing}</p>}
      {found && found.offers.length > 0 && <p class="hint">{fits.bare}</p>}
      {found && (
        <ul class="offers">
          {found.offers.map((offer) => (
            <OneOffer key={offer.name} offer={offer} />
          ))}
        </ul>
      )}
      {found && found.gains.length > 0 && (
        <>
          <h3>{fits.gains}</h3>
          <ul>
            {found.gains.map((gain) => (
              <li key={gain.change}>
                <b>+ {volume(gain.gain_m3)}</b> <ServerText text={gain.change} />
              </li>
            ))}
          </ul>
        </>
      )}
      {found && found.left_out.length > 0 && (
        <details>
          <summary>{fits.leftOut}</summary>
          <ul>
            {found.left_out.map((body) => (
              <li key={body.name}>
                {body.name}: <ServerText text={body.reason} />
              </li>
            ))}
          </ul>
        </details>
      )}
    </Stage>
  );
}

function OneOffer({ offer }: { offer: Offer }) {
  const figures: [string, string][] = [
    [words.top.rated, volume(offer.rated_m3)],
    [words.top.brim, volume(offer.brim_m3)],
    [words.top.usable, offer.usable_m3 === null ? "–" : volume(offer.usable_m3)],
    [fits.panels, String(offer.panels)],
    [fits.seams, run(offer.seams_m)],
    [fits.sheets, String(offer.sheets)],
    [words.weld.time, hours(offer.work_s)],
    [words.top.dry, mass(offer.empty_kg)],
    [words.top.full, mass(offer.full_kg)],
  ];
  const reasons = ([
    [fits.because, offer.because],
    [fits.givesUp, offer.gives_up],
    [fits.nextGains, offer.next_gains],
    [fits.wayIn, offer.way_in.says],
    [fits.fullSize, offer.full_size?.says ?? ""],
  ] as const)
    .filter(([, text]) => text !== "")
    .map(([name, text]) => [name, <ServerText key={name} text={text} />] as const);
  const isTaken = written("body.fitted") === offer.name;
  return (
    <li>
      <h3>{offer.name}</h3>
      <Sketch shapes={[facetShape("", offer.body)]} label={offer.name} />
      <Pairs kind="side-by-side" list={figures} />
      {offer.panels_left_out > 0 && <p class="warn">{fits.lacking(offer.panels_left_out)}</p>}
      <Pairs kind="reasons" list={reasons} />
      {offer.way_in.pieces.length > 0 && (
        <details>
          <summary>{fits.pieces}</summary>
          <ol>
            {offer.way_in.pieces.map((piece, number) => (
              <li key={number}>
                <ServerText text={piece.says} />
              </li>
            ))}
          </ol>
        </details>
      )}
      <button type="button" class="main" aria-disabled={isTaken} onClick={() => isTaken || void changeFrom(() => editsToUse(offer.name))}>
        {isTaken ? fits.taken : fits.take}
      </button>
    </li>
  );
}

/** The job names a fitted body; any other shape of the body is removed. */
function editsToUse(name: string): Edit[] {
  const shape = ["box", "plan", "side", "front", "length", "width", "height", "at", "cut", "corners", "faces"];
  const given = shape.map((key) => `body.${key}`).filter((path) => written(path) !== undefined);
  return [...given.map((path): Edit => ({ path, remove: true })), { path: "body.fitted", set: name }];
}
