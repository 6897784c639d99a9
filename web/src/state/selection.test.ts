// @vitest-environment happy-dom
import { expect, test, vi } from "vitest";
import { select, selection, goTo } from "./selection";

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
