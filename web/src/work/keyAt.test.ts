import { expect, test } from "vitest";
import { keyAt } from "./keyAt";

const TEXT = `[job]
name = "box"

[[space.obstacle]]
from = [
  0, 0, 0,
]
`;

const at = (part: string) => keyAt(TEXT, TEXT.indexOf(part));

test("the key of a place is that of its line, in the section above it", () => {
  expect(at("name")).toBe("job.name");
  expect(at('"box"')).toBe("job.name");
  expect(at("[job]")).toBe("job");
});

test("a list that goes on over lines belongs to its key", () => {
  expect(at("0, 0")).toBe("space.obstacle.from");
});

test("an empty line belongs to its section alone", () => {
  expect(keyAt(TEXT, TEXT.indexOf("\n\n") + 1)).toBe("job");
});
