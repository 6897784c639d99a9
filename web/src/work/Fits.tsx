// What fits: bodies that the server offers for the space, with figures; taken by a button.

import { useState } from "preact/hooks";
import type { Edit, Solid } from "../api/types";
import { Sketch } from "../parts/Sketch";
import { Stage } from "../parts/Stage";
import { hours, run, volume } from "../show/figure";
import { answer, change, long } from "../state/job";
import { words } from "../words/en";

interface Offer {
  name: string;
  says: string;
  rated_m3: number;
  panels: number;
  seams_m: number;
  sheets: number;
  time_s: number;
  solid: Solid | null;
  edits: Edit[];
}

export function Fits() {
  const [offers, setOffers] = useState<Offer[] | "asking" | "none" | null>(null);
  const find = () => {
    setOffers("asking");
    void long<{ bodies: Offer[] }>(answer.value!.name, "fit", (found) => setOffers(found.bodies), () => setOffers("none"));
  };
  return (
    <Stage id="fits">
      {offers === null && (
        <button type="button" onClick={find}>
          {words.fits.ask}
        </button>
      )}
      {offers === "asking" && <p role="status">{words.wait}</p>}
      {offers === "none" && <p role="status">{words.fits.none}</p>}
      {Array.isArray(offers) && (
        <ul class="offers">
          {offers.map((offer) => (
            <li key={offer.name}>
              <h3>{offer.name}</h3>
              {offer.solid && (
                <Sketch panels={[{ mark: "", name: offer.name, role: "", thickness_m: 0, solid: offer.solid }]} label={offer.name} />
              )}
              <p>{offer.says}</p>
              <p>
                {[volume(offer.rated_m3), words.fits.panels(offer.panels), run(offer.seams_m), words.fits.sheets(offer.sheets), hours(offer.time_s)].join(" · ")}
              </p>
              <button type="button" class="main" onClick={() => void change(...offer.edits)}>
                {words.fits.take}
              </button>
            </li>
          ))}
        </ul>
      )}
    </Stage>
  );
}
