// Short names for shapes of the server's JSON. The shapes themselves are in `schema.d.ts`, which
// `npm run types` makes from the server's own description.

import type { components } from "./schema";

type Schemas = components["schemas"];

export type Point = Schemas["Point"];
export type Spot = [number, number];
/** A value as a person typed it in the job file. */
export type Written = string | number | boolean | null | Written[] | { [key: string]: Written };

export type Fault = Schemas["Fault"];
export type ErrorBody = Schemas["ErrorBody"];
export type JobAnswer = Omit<Schemas["JobAnswer"], "written"> & { written: { [key: string]: Written } | null };
export type JobLine = Schemas["ListedJob"];
export type About = Schemas["About"];
export type Reference = Schemas["Reference"];
export type Edit = Schemas["Edit"];

export type Plan = Schemas["Plan"];
export type Finding = Plan["findings"][number];
export type Cause = Plan["causes"][number];
export type Adds = NonNullable<NonNullable<Cause["remedy"]>["adds"]>;
export type Grade = Finding["grade"];
export type Quantity = NonNullable<Finding["figure"]>;
export type Panel = Plan["panels"][number];
export type Seam = Plan["seams"][number];
export type Layout = Plan["cut"]["groups"][number]["layouts"][number];
export type Cut = Layout["cuts"][number];
export type Step = Plan["weld"]["steps"][number];

export type Model = Schemas["ModelAnswer"];
export type Solid = Model["panels"][number]["solid"];
export type Liquid = Schemas["LiquidAtDip"];

export type Fit = Schemas["Fit"];
export type Offer = Fit["offers"][number];
/** A closed solid of flat faces. */
export type Facets = Offer["body"];

export type Papers = Schemas["Papers"];
export type Remedy = Schemas["Remedy"];
export type RemedyFigures = NonNullable<Remedy["before"]>;
export type Bench = Schemas["BenchAnswer"];
export type BenchStep = Bench["steps"][number];
export type Entry = Schemas["Entry"];
export type Build = Schemas["OrderAnswer"];
export type BuildStep = Build["steps"][number];
export type BuildRun = BuildStep["runs"][number];
export type BuildPlace = BuildRun["places"][number];
export type Poses = Schemas["PosesAnswer"];
export type Pose = NonNullable<Poses["poses"][number]>;
export type Progress = Schemas["Progress"];
