// @vitest-environment happy-dom
import { expect, test, vi } from "vitest";
import { aPanel, aPlan } from "../testing/samples";
import { select, selection, goTo, marksIn } from "./selection";

const plan = aPlan({ panels: [aPanel("P1", "floor"), aPanel("P2", "rear"), aPanel("P3", "floor")] });

test("a text names panels and seams by their marks", () => {
  expect(marksIn("S1 (rear to floor), P2 and S1", plan)).toEqual(["S1", "P2"]);
});

test("a text that is a panel's whole name names every panel of that name", () => {
  expect(marksIn("floor", plan)).toEqual(["P1", "P3"]);
  expect(marksIn("the floor", plan)).toEqual([]);
  expect(marksIn("XP1", plan)).toEqual([]);
});

test("a choice takes the place of the one before", () => {
  select("P1", "S1");
  select("P2");
  expect(selection.value).toEqual(["P2"]);
});

test("going to a stage takes the focus there, without moving pictures for whom they are too much", () => {
  document.body.innerHTML = '<section id="cut" tabindex="-1"></section>';
  const section = document.getElementById("cut")!;
  const scroll = vi.fn();
  section.scrollIntoView = scroll;
  vi.spyOn(window, "matchMedia").mockReturnValue({ matches: true } as MediaQueryList);
  goTo("cut");
  expect(document.activeElement).toBe(section);
  expect(scroll).toHaveBeenCalledWith({ behavior: "instant", block: "start" });
});
