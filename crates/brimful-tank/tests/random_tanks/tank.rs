//! Random jobs of all that the whole-tank check looks at, in whole millimetres, so that a mirror image is
//! exact.

use crate::common::between;
use brimful_job::Job;
use fastrand::Rng;
use std::fmt::Write as _;

/// A tank of a random shape on a random support.
#[derive(Clone, Debug)]
pub struct RandomTank {
    shape: Shape,
    /// Greatest sizes along x, y and z.
    size: [i64; 3],
    /// Of the outer sheets.
    pub thickness: i64,
    inner_thickness: i64,
    material: &'static str,
    process: &'static str,
    years: i64,
    warmest: i64,
    air_space: Option<i64>,
    heel: bool,
    inner: Vec<Inner>,
    /// Heights of bands, and how far they stand out.
    ribs: Option<(Vec<i64>, i64)>,
    support: Support,
    /// Openings in the lid and the right wall of a box, and their diameters.
    lid_openings: Vec<(&'static str, [i64; 2], i64)>,
    draw: Option<[i64; 2]>,
    on_lid: Option<i64>,
    /// Pushes forward, to the rear, to a side, down and up in hundredths of g; none of a standing tank.
    event: Option<[i64; 5]>,
    /// What the job asks for instead of the factor of the rules.
    pub safety_factor: f64,
}

/// The outline of a body, with how far its corners lie off those of a box.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Shape {
    Box,
    /// In plan, less a bite at the corner where x and y are greatest.
    Ell([i64; 2]),
    /// From the side, its ends leaning in by so much.
    Leaning([i64; 2]),
    /// From the side, its lid falling by the second from the first on.
    SlopingLid([i64; 2]),
}

#[derive(Clone, Copy, Debug)]
struct Inner {
    kind: &'static str,
    across: &'static str,
    at: i64,
    hole: Option<i64>,
}

#[derive(Clone, Debug)]
enum Support {
    Floor,
    Rails(&'static str, Vec<i64>),
    Feet(i64),
}

impl RandomTank {
    pub fn new(rng: &mut Rng) -> Self {
        let size = [
            between(rng, 300, 900),
            between(rng, 250, 600),
            between(rng, 200, 500),
        ];
        let [long, wide, high] = size;
        let shape = match rng.u32(0..5) {
            0 | 1 => Shape::Box,
            2 => Shape::Ell([
                between(rng, long / 4, long / 2),
                between(rng, wide / 4, wide / 2),
            ]),
            3 => Shape::Leaning([between(rng, 20, long / 6), between(rng, 20, long / 6)]),
            _ => Shape::SlopingLid([
                between(rng, long / 3, 2 * long / 3),
                between(rng, 30, high / 3),
            ]),
        };
        let is_road = rng.bool();
        Self {
            inner: inner_panels(rng, shape, size),
            shape,
            size,
            thickness: between(rng, 5, 15),
            inner_thickness: between(rng, 5, 12),
            material: ["HDPE", "PP"][rng.usize(0..2)],
            process: ["hot gas", "extrusion"][rng.usize(0..2)],
            years: between(rng, 1, 25),
            warmest: between(rng, 20, 40),
            air_space: (rng.u32(0..3) == 0).then(|| between(rng, 20, high / 4)),
            heel: rng.u32(0..6) == 0,
            ribs: (shape == Shape::Box && rng.u32(0..5) == 0)
                .then(|| (vec![high / 3, 2 * high / 3], between(rng, 50, 90))),
            support: match rng.u32(0..4) {
                0 | 1 => Support::Floor,
                2 => match rng.bool() {
                    true => Support::Rails("y", vec![long / 8, long / 2, 7 * long / 8]),
                    false => Support::Rails("x", vec![wide / 8, 7 * wide / 8]),
                },
                _ => Support::Feet(between(rng, 40, 90)),
            },
            lid_openings: match rng.u32(0..3) {
                0 => Vec::new(),
                _ => vec![
                    (
                        "hatch",
                        [long / 3, wide / 3],
                        between(rng, 90, 160).min(wide / 3),
                    ),
                    ("vent", [long / 6, wide / 8 + 20], 27),
                ],
            },
            draw: rng
                .bool()
                .then(|| [between(rng, 60, long - 60), between(rng, 50, 90)]),
            on_lid: (rng.u32(0..8) == 0).then(|| between(rng, 10, 80)),
            event: is_road.then(|| {
                let push = |rng: &mut Rng| match rng.bool() {
                    true => between(rng, 20, 100),
                    false => 0,
                };
                [
                    between(rng, 20, 100),
                    push(rng),
                    push(rng),
                    push(rng),
                    push(rng),
                ]
            }),
            safety_factor: 2.0,
        }
    }

    pub fn job(&self) -> Job {
        parsed(&self.text(false))
    }

    /// The image in the plane midway along x.
    pub fn mirror_image(&self) -> Job {
        parsed(&self.text(true))
    }

    /// The file of the job, or of its mirror image.
    pub fn text(&self, mirrored: bool) -> String {
        let [long, wide, high] = self.size;
        let x = |x: i64| if mirrored { long - x } else { x };
        let mut text = format!(
            "[job]\nname = \"random\"\nlengths = \"mm\"\nduty = \"{}\"\n[liquid]\nkind = \"water\"\nwarmest = \"{} degC\"\nyears = \"{} years\"\nair_space = {}\n",
            if self.event.is_some() {
                "road"
            } else {
                "standing"
            },
            self.warmest,
            self.years,
            self.air_space.unwrap_or(25),
        );
        let mut line = |it: String| writeln!(text, "{it}").expect("a string takes all");
        line(format!("[stock]\nmaterial = \"{}\"", self.material));
        for thickness in [self.thickness, self.inner_thickness] {
            line(format!(
                "[[stock.sheet]]\nsize = [3000, 1500]\nthickness = {thickness}"
            ));
        }
        line(format!("[shop]\nprocess = \"{}\"", self.process));
        if self.heel {
            line("[trim]\nheel = \"3 deg\"".to_owned());
        }
        line(format!(
            "[checks]\nsafety_factor = {:.6}\nfilled_to = \"{}\"",
            self.safety_factor,
            if self.air_space.is_some() {
                "rated"
            } else {
                "brim"
            }
        ));
        if let Some(load) = self.on_lid {
            line(format!("lid_load = \"{load} kg\""));
        }
        let outline = |corners: Vec<[i64; 2]>| {
            let mut corners: Vec<[i64; 2]> = corners.into_iter().map(|[a, b]| [x(a), b]).collect();
            if mirrored {
                corners.reverse();
            }
            corners
        };
        line("[body]".to_owned());
        line(match self.shape {
            Shape::Box => format!("box = [{long}, {wide}, {high}]"),
            Shape::Ell([a, b]) => {
                let corners = [
                    [0, 0],
                    [long, 0],
                    [long, wide - b],
                    [long - a, wide - b],
                    [long - a, wide],
                    [0, wide],
                ];
                format!("plan = {:?}\nheight = {high}", outline(corners.to_vec()))
            }
            Shape::Leaning([a, b]) => {
                let corners = [[0, 0], [long, 0], [long - a, high], [b, high]];
                format!("side = {:?}\nwidth = {wide}", outline(corners.to_vec()))
            }
            Shape::SlopingLid([a, b]) => {
                let corners = [[0, 0], [long, 0], [long, high - b], [a, high], [0, high]];
                format!("side = {:?}\nwidth = {wide}", outline(corners.to_vec()))
            }
        });
        line(format!("thickness = {}", self.thickness));
        for inner in &self.inner {
            let at = if inner.across == "x" {
                x(inner.at)
            } else {
                inner.at
            };
            line(format!(
                "[[inner]]\nkind = \"{}\"\nacross = \"{}\"\nat = {at}\nthickness = {}",
                inner.kind, inner.across, self.inner_thickness
            ));
            if let Some(diameter) = inner.hole {
                let across = if inner.across == "x" {
                    wide / 4 + 10
                } else {
                    x(long / 2)
                };
                line(format!(
                    "[[inner.hole]]\ndiameter = {diameter}\nat = [{across}, {}]",
                    high / 2
                ));
            }
        }
        if let Some((heights, depth)) = &self.ribs {
            line(format!("[[rib]]\nheights = {heights:?}\ndepth = {depth}"));
        }
        // Openings are measured from the lower-left corner of their panel.
        let (lid_from, lid_to) = match self.shape {
            Shape::Leaning([a, b]) => (b, long - a),
            Shape::Box | Shape::Ell(_) | Shape::SlopingLid(_) => (0, long),
        };
        if !matches!(self.shape, Shape::SlopingLid(_)) {
            for (service, [along, across], diameter) in &self.lid_openings {
                let along = if mirrored {
                    lid_to - along
                } else {
                    along - lid_from
                };
                line(format!(
                    "[[opening]]\nservice = \"{service}\"\npanel = \"lid\"\nat = [{along}, {across}]\ndiameter = {diameter}"
                ));
            }
        }
        if let Some([along, up]) = self.draw.filter(|_| self.shape == Shape::Box) {
            line(format!(
                "[[opening]]\nservice = \"draw\"\npanel = \"right\"\nat = [{}, {up}]\ndiameter = 27",
                x(along)
            ));
        }
        match &self.support {
            Support::Floor => {}
            Support::Rails(along, at) => {
                let mut at: Vec<i64> = at
                    .iter()
                    .map(|&it| if *along == "y" { x(it) } else { it })
                    .collect();
                at.sort_unstable();
                line(format!(
                    "[support]\nkind = \"rails\"\nalong = \"{along}\"\nat = {at:?}\nwidth = 40"
                ));
            }
            Support::Feet(size) => {
                let near = size / 2 + 20;
                let corner = |along: i64, across: i64| [x(along), across];
                line(format!(
                    "[support]\nkind = \"feet\"\nat = {:?}\nsize = [{size}, {size}]",
                    [
                        corner(near, near),
                        corner(long - near, near),
                        // An L has no floor at its bite.
                        corner(near, wide - near),
                        corner(long - near, wide / 2 - near),
                    ]
                ));
            }
        }
        if let Some([ahead, behind, side, down, up]) = self.event {
            let [forward, rear] = if mirrored {
                [behind, ahead]
            } else {
                [ahead, behind]
            };
            let g = |hundredths: i64| hundredths as f64 / 100.0;
            line(format!(
                "[[event]]\nname = \"push\"\nforward = {}\nrear = {}\nside = {}\ndown = {}\nup = {}",
                g(forward),
                g(rear),
                g(side),
                g(down),
                g(up)
            ));
        }
        text
    }
}

fn parsed(text: &str) -> Job {
    Job::parse(text).unwrap_or_else(|faults| panic!("{faults:?}\n{text}"))
}

/// None, one or two across x and sometimes one across y, clear of each other.
fn inner_panels(rng: &mut Rng, shape: Shape, [long, wide, _]: [i64; 3]) -> Vec<Inner> {
    let mut inner = Vec::new();
    let mut add = |rng: &mut Rng, across: &'static str, at: i64| {
        // Compartments under a sloping lid are full to heights of their own.
        let kind = match matches!(shape, Shape::SlopingLid(_)) || rng.u32(0..4) > 0 {
            true => "baffle",
            false => "divider",
        };
        let hole = (kind == "baffle" && rng.bool()).then(|| between(rng, 30, 60));
        inner.push(Inner {
            kind,
            across,
            at,
            hole,
        });
    };
    match rng.u32(0..4) {
        0 => {}
        1 | 2 => {
            let at = between(rng, long / 3, 2 * long / 3);
            add(rng, "x", at);
        }
        _ => {
            add(rng, "x", long / 3);
            add(rng, "x", 2 * long / 3);
        }
    }
    if inner.is_empty() && rng.bool() {
        let at = between(rng, wide / 3, wide / 2);
        let kind = "baffle";
        inner.push(Inner {
            kind,
            across: "y",
            at,
            hole: None,
        });
    }
    inner
}
