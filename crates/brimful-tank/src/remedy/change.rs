//! The changes that are worth a trial: each a whole job, with what is changed in it.

use super::trial::Trial;
use brimful_geom::solid::Solid;
use brimful_job::{
    About, Axis, BodyShape, Duty, FilledTo, Inner, InnerJoint, InnerKind, InnerPlace, Job, Place,
    Process, Rib, Space, Strip, Support, Write, writes,
};
use brimful_panels::body::Body;
use brimful_panels::finding::kind::What;
use brimful_panels::name::PanelName;
use brimful_panels::panel::{Panel, Role};
use brimful_panels::table::factor::WeldFactor;
use brimful_panels::table::material::Material;
use brimful_panels::table::sheet::common_thicknesses;
use brimful_panels::weld::welded_thickness;
use brimful_units::Length;

/// Thicker sheets that are tried at most.
const MOST_SHEETS: usize = 3;
/// Baffles that are added at most.
const MOST_BAFFLES: usize = 3;
/// Room left over and under a baffle that is added, m.
const BAFFLE_GAP: Length = Length::from_mm(25.0);
/// Bands round the walls that are tried, few first.
const BANDS: [usize; 4] = [2, 5, 9, 14];
/// How far a band stands out, in thicknesses of the walls.
const BAND_DEPTHS: f64 = 6.0;
/// Pairs of stays that are tried, few first.
const STAYS: [usize; 3] = [2, 5, 9];
/// Width of a stay.
const STAY_WIDTH: Length = Length::from_mm(60.0);
/// Rails that are added at most.
const MOST_RAILS: usize = 3;
/// How much further off what is beside it a body is tried.
const CLEARANCES: [Length; 3] = [
    Length::from_mm(5.0),
    Length::from_mm(10.0),
    Length::from_mm(20.0),
];
/// How far down the fill may be taken, as shares of the height, one after the other.
const FILLS: [f64; 3] = [0.85, 0.7, 0.55];

/// A changed job.
#[derive(Clone, Debug, PartialEq)]
pub struct Change {
    /// What is changed.
    pub what: What,
    /// The job with the change; fittings in walls are left out where something new may stand there.
    pub job: Job,
}

impl Change {
    /// What puts the change into the file of `job`, fittings in walls kept where they are.
    pub fn writes(&self, job: &Job) -> Vec<Write> {
        writes(job, &self.job)
    }
}

/// Every change that is worth a trial, by kind; of each kind the smallest first.
pub fn changes(job: &Job, now: &Trial) -> Vec<Vec<Change>> {
    let mut kinds = vec![
        thicker(job, &now.panels),
        thicker_inside(job, &now.panels),
        extrusion(job),
        more_baffles(job, &now.body),
        better_support(job, &now.body.solid),
        lower_fill(job, &now.body.cavity),
        clearance(job),
    ];
    kinds.push(bands(job, &now.body));
    if is_deep(&now.body.cavity) {
        kinds.push(stays(job, &now.body));
    }
    kinds
}

/// Whether it is deeper than it is wide: stays are for such, where the sides of a shallow tank are held by floor and
/// lid.
fn is_deep(cavity: &Solid) -> bool {
    let (low, high) = cavity.bounds();
    high.z - low.z > (high.x - low.x).min(high.y - low.y)
}

/// Welds laid with an extruder instead of hot gas: stronger for years.
pub fn extrusion(job: &Job) -> Vec<Change> {
    let by_extruder = Material::of(&job.stock.material)
        .is_ok_and(|material| WeldFactor::of(material, Process::Extrusion).is_ok());
    if job.shop.process != Process::HotGas || !by_extruder {
        return Vec::new();
    }
    vec![Change {
        what: What::Extrusion,
        job: job.welded_by_extruder(),
    }]
}

/// A body that keeps further off what is beside it, where it follows the space.
fn clearance(job: &Job) -> Vec<Change> {
    let follows = job
        .body
        .as_ref()
        .is_none_or(|body| matches!(body.shape, BodyShape::Fitted { .. }));
    let Some(space) = job.space.as_ref().filter(|_| follows) else {
        return Vec::new();
    };
    CLEARANCES
        .map(|more| job.about.round(space.clearance + more))
        .into_iter()
        .map(|clearance| {
            let space = Space {
                clearance,
                ..space.clone()
            };
            let space = Some(space);
            Change {
                what: What::Clearance(clearance),
                job: Job {
                    space,
                    ..job.clone()
                },
            }
        })
        .collect()
}

/// The next sheets of more than this thickness, of the stock or of the trade, that the shop's process welds.
fn thicker_sheets(job: &Job, own: Length) -> impl Iterator<Item = Length> {
    let stock = job.stock.sheets.iter().map(|sheet| sheet.thickness);
    // Of the common sheets those of the shop's own system, whole millimetres or its parts of an inch.
    let common = common_thicknesses().filter(|sheet| job.about.round(*sheet) == *sheet);
    let mut sheets: Vec<Length> = common.chain(stock).collect();
    sheets.sort_by(|a, b| a.m().total_cmp(&b.m()));
    // A shop buys by one system: sheets within a twentieth of each other are one choice.
    sheets.dedup_by(|a, b| (*a / *b - 1.0).abs() < 0.07);
    let thickest = welded_thickness(job).map(|[_, thickest]| thickest);
    let thicker = sheets.into_iter().filter(move |sheet| {
        *sheet > own * 1.02 && thickest.is_none_or(|thickest| *sheet <= thickest)
    });
    thicker.take(MOST_SHEETS)
}

fn thickest_of(panels: &[Panel], counts: impl Fn(&Panel) -> bool) -> Length {
    let thickness = panels.iter().filter(|panel| counts(panel));
    thickness
        .map(|panel| panel.thickness)
        .fold(Length::ZERO, Length::max)
}

pub fn thicker(job: &Job, panels: &[Panel]) -> Vec<Change> {
    let own = thickest_of(panels, |panel| panel.role.is_outer());
    thicker_sheets(job, own)
        .filter_map(|thickness| {
            let mut job = job.clone();
            let body = job.body.as_mut()?;
            body.thickness = Some(thickness);
            body.thicknesses.clear();
            Some(Change {
                what: What::OuterSheets(thickness),
                job,
            })
        })
        .collect()
}

/// Baffles and dividers of thicker sheet.
fn thicker_inside(job: &Job, panels: &[Panel]) -> Vec<Change> {
    let parts = |role| matches!(role, Role::Baffle | Role::Divider);
    let own = thickest_of(panels, |panel| parts(panel.role));
    if own == Length::ZERO {
        return Vec::new();
    }
    thicker_sheets(job, own)
        .map(|thickness| {
            let mut job = job.clone();
            let inner = job.inner.iter_mut();
            inner
                .filter(|inner| inner.kind != InnerKind::Stay)
                .for_each(|inner| inner.thickness = Some(thickness));
            Change {
                what: What::InnerSheets(thickness),
                job,
            }
        })
        .collect()
}

/// As many baffles, and more, evenly spaced across the longer side, in place of those across it.
pub fn more_baffles(job: &Job, body: &Body) -> Vec<Change> {
    let job = without_wall_openings(job, body);
    let (axis, ..) = longer_side(body);
    let like = job.inner.iter().find(|inner| stands_across(inner, axis));
    let template = like.cloned().unwrap_or_else(|| plain_baffle(&job.about));
    let has = job
        .inner
        .iter()
        .filter(|inner| stands_across(inner, axis))
        .count();
    (has.max(1)..=has + MOST_BAFFLES)
        .map(|count| with_baffles(&job, body, count, &template))
        .filter(|(changed, _)| !stand_alike(&job.inner, &changed.inner))
        .map(|(job, at)| Change {
            what: What::Baffles { across: axis, at },
            job,
        })
        .collect()
}

/// Whether inner panels stand in the same places, a fingertip more or less.
fn stand_alike(some: &[Inner], others: &[Inner]) -> bool {
    const FINGERTIP: Length = Length::from_mm(10.0);
    let near = |(a, b): (&Inner, &Inner)| match (&a.at, &b.at) {
        (InnerPlace::At { across: a, at: p }, InnerPlace::At { across: b, at: q }) => {
            a == b && (p.m() - q.m()).abs() < FINGERTIP.m()
        }
        (a, b) => a == b,
    };
    some.len() == others.len() && some.iter().zip(others).all(near)
}

/// The job with so many baffles evenly spaced across the longer side, in place of those across it, and
/// their places.
pub fn with_baffles(job: &Job, body: &Body, count: usize, like: &Inner) -> (Job, Vec<Length>) {
    let (axis, from, length) = longer_side(body);
    let shift = origin(job)[usize::from(axis != Axis::X)];
    let (mut job, before) = (job.clone(), &job.inner);
    job.inner.retain(|inner| !stands_across(inner, axis));
    // Those without a name are called by their number in the list.
    let others = job.inner.len();
    let free = |name: &String| !job.inner.iter().any(|inner| inner.name == *name);
    let names: Vec<String> = (others + 1..)
        .map(|number| format!("baffle {number}"))
        .filter(free)
        .take(count)
        .collect();
    let mut places = Vec::new();
    for (i, name) in (1..).zip(names) {
        let even = from - shift + length * f64::from(i) / (count + 1) as f64;
        let at = job.about.round(Length::from_m(even));
        places.push(at);
        job.inner.push(Inner {
            name,
            at: InnerPlace::At { across: axis, at },
            ..like.clone()
        });
    }
    leave_out_of_order(&mut job, before);
    (job, places)
}

/// Takes inner panels that are gone out of the maker's own order, whose other names stay. Of what is new and missing in it a
/// finding tells.
fn leave_out_of_order(job: &mut Job, before: &[Inner]) {
    let Some(order) = &mut job.own_order else {
        return;
    };
    let is_named = |inner: &[Inner], name: &str| inner.iter().any(|it| it.name == name);
    let (now, panels) = (&job.inner, &mut order.panels);
    panels.retain(|it| !is_named(before, &it.name) || is_named(now, &it.name));
    if panels.is_empty() {
        job.own_order = None;
    }
}

/// The axis of the longer side, where the cavity begins on it, and how long it is, m.
fn longer_side(body: &Body) -> (Axis, f64, f64) {
    let (low, high) = body.cavity.bounds();
    if high.x - low.x >= high.y - low.y {
        (Axis::X, low.x, high.x - low.x)
    } else {
        (Axis::Y, low.y, high.y - low.y)
    }
}

/// Whether it is a baffle across the axis, or one placed by rule.
fn stands_across(inner: &Inner, axis: Axis) -> bool {
    let across = match inner.at {
        InnerPlace::At { across, .. } => across == axis,
        InnerPlace::Auto => true,
    };
    across && inner.kind == InnerKind::Baffle
}

/// The tank without those of its baffles that are over their limits. Only for one that stands: on the road and afloat a
/// baffle takes from the surge, which no load counts.
pub fn without_baffles(job: &Job, over: &[&PanelName]) -> Vec<Change> {
    let is_over = |inner: &&Inner| {
        let mut own = over.iter().filter_map(|name| name.inner());
        inner.kind == InnerKind::Baffle && own.any(|name| *name == inner.name)
    };
    let names: Vec<String> = job
        .inner
        .iter()
        .filter(is_over)
        .map(|it| it.name.clone())
        .collect();
    if job.about.duty != Duty::Standing || names.is_empty() {
        return Vec::new();
    }
    let (mut job, before) = (job.clone(), &job.inner);
    job.inner.retain(|inner| !names.contains(&inner.name));
    leave_out_of_order(&mut job, before);
    vec![Change {
        what: What::WithoutBaffles { names },
        job,
    }]
}

/// Inner panels with seams that no gun gets to inside, joined by tongues through slots, which are welded outside. A
/// divider would not be tight between its tongues.
pub fn slot_through(job: &Job, not_laid: &[&PanelName]) -> Vec<Change> {
    let is_named = |inner: &Inner| {
        let mut own = not_laid.iter().filter_map(|name| name.inner());
        own.any(|name| *name == inner.name)
    };
    let mut changed = job.clone();
    let slotted = changed.inner.iter_mut().filter(|inner| {
        inner.kind != InnerKind::Divider && inner.joint == InnerJoint::Tee && is_named(inner)
    });
    let names: Vec<String> = slotted
        .map(|inner| {
            inner.joint = InnerJoint::SlotThrough;
            inner.name.clone()
        })
        .collect();
    let change = Change {
        what: What::SlotThrough {
            names: names.clone(),
        },
        job: changed,
    };
    (!names.is_empty()).then_some(change).into_iter().collect()
}

fn plain_baffle(about: &About) -> Inner {
    let gap = about.round(BAFFLE_GAP);
    Inner {
        name: String::new(),
        kind: InnerKind::Baffle,
        at: InnerPlace::Auto,
        strip: None,
        thickness: None,
        air_gap: gap,
        drain_gap: gap,
        holes: Vec::new(),
        joint: InnerJoint::Tee,
        span: None,
        place: Place::default(),
    }
}

/// Level bands round the walls, closer together low down: each carries as much of the pressure as
/// the next. The strips of wall that they leave are no narrower than they are deep, on the whole: where they
/// would be, a thicker wall does it.
fn bands(job: &Job, body: &Body) -> Vec<Change> {
    let (low, high) = body.cavity.bounds();
    let origin = origin(job);
    let depth = job.about.round(thickest_wall(body) * BAND_DEPTHS);
    let instead = !job.ribs.is_empty();
    let height = Length::from_m(high.z - low.z);
    BANDS
        .into_iter()
        .filter(|&count| depth * (count + 1) as f64 <= height)
        .map(|count| {
            let heights: Vec<Length> = even_shares(count)
                .into_iter()
                .map(|share| Length::from_m(low.z + share * (high.z - low.z) - origin[2]))
                .map(|height| job.about.round(height))
                .collect();
            let mut job = without_wall_openings(job, body);
            let what = What::Bands {
                instead,
                depth,
                at: heights.clone(),
            };
            job.ribs = vec![Rib {
                name: "band".to_owned(),
                heights,
                depth,
                thickness: None,
                panels: None,
                place: Place::default(),
            }];
            Change { what, job }
        })
        .collect()
}

/// Strips from wall to wall inside, across both ways, closer together low down.
fn stays(job: &Job, body: &Body) -> Vec<Change> {
    let (low, high) = body.cavity.bounds();
    let origin = origin(job);
    let width = job.about.round(STAY_WIDTH);
    STAYS
        .into_iter()
        .map(|count| {
            let mut job = without_wall_openings(job, body);
            let mut heights = Vec::new();
            for share in even_shares(count) {
                let z = low.z + share * (high.z - low.z);
                let height = job.about.round(Length::from_m(z - origin[2]));
                heights.push(height);
                // A name is part of the job, so it is the same whichever units are shown.
                let place = job.about.place_word(height);
                for (axis, middle, word) in [
                    (Axis::X, (low.x + high.x) / 2.0 - origin[0], "x"),
                    (Axis::Y, (low.y + high.y) / 2.0 - origin[1], "y"),
                ] {
                    // One lies over the other where they cross.
                    let lift = if axis == Axis::X { width } else { Length::ZERO };
                    job.inner.push(Inner {
                        name: format!("stay across {word} at {place}"),
                        kind: InnerKind::Stay,
                        at: InnerPlace::At {
                            across: axis,
                            at: job.about.round(Length::from_m(middle)),
                        },
                        strip: Some(Strip {
                            height: job.about.round(height + lift),
                            width,
                            lies: false,
                        }),
                        air_gap: Length::ZERO,
                        drain_gap: Length::ZERO,
                        ..plain_baffle(&job.about)
                    });
                }
            }
            Change {
                what: What::Stays { width, at: heights },
                job,
            }
        })
        .collect()
}

/// A trial is not to fail by a fitting that can be moved: those in walls are left out of it, and the
/// layout of the real job says where they stand in the way.
fn without_wall_openings(job: &Job, body: &Body) -> Job {
    let in_wall = |name: &str| {
        let face = body.faces.iter().find(|face| face.name == *name);
        face.is_none_or(|face| face.role == Role::Wall)
    };
    let mut job = job.clone();
    job.openings.retain(|opening| !in_wall(&opening.panel));
    job
}

/// Places between floor and lid, as shares of the height, that part a pressure falling from the
/// floor to zero at the lid into even shares, each strip in the middle of its own.
fn even_shares(count: usize) -> Vec<f64> {
    let height = |share: f64| 1.0 - (1.0 - share).sqrt();
    (0..count)
        .map(|i| height((i as f64 + 0.5) / count as f64))
        .collect()
}

fn thickest_wall(body: &Body) -> Length {
    let walls = body.faces.iter().filter(|face| face.role == Role::Wall);
    walls
        .map(|face| face.thickness)
        .fold(Length::ZERO, Length::max)
}

/// Where the body's own axes begin, m.
fn origin(job: &Job) -> [f64; 3] {
    job.body
        .as_ref()
        .map_or([0.0; 3], |body| body.at.map(Length::m))
}

/// A rail more, or some, evenly spaced, or a floor under all of it.
fn better_support(job: &Job, outside: &Solid) -> Vec<Change> {
    if job.support == Support::Floor {
        return Vec::new();
    }
    let mut changes = more_rails(job, outside);
    let level = outside
        .faces
        .iter()
        .filter(|face| face.plane.normal.z < -0.999)
        .count();
    if level == 1 {
        let job = Job {
            support: Support::Floor,
            ..job.clone()
        };
        changes.push(Change {
            what: What::Board,
            job,
        });
    }
    changes
}

fn more_rails(job: &Job, outside: &Solid) -> Vec<Change> {
    let Support::Rails { along, at, width } = &job.support else {
        return Vec::new();
    };
    let (low, high) = outside.bounds();
    let span = match along {
        Axis::Y => high.x - low.x,
        _ => high.y - low.y,
    };
    let (half, reach) = (*width / 2.0, Length::from_m(span) - *width);
    let evenly = |count: usize| -> Vec<Length> {
        let place = |i: usize| half + reach * (i as f64 / (count - 1) as f64);
        (0..count).map(|i| job.about.round(place(i))).collect()
    };
    (1..=MOST_RAILS)
        .map(|more| {
            let places = evenly(at.len() + more);
            let support = Support::Rails {
                along: *along,
                at: places.clone(),
                width: *width,
            };
            Change {
                what: What::Rails(places),
                job: Job {
                    support,
                    ..job.clone()
                },
            }
        })
        .collect()
}

/// Never filled as high: more air, which an overflow has to see to.
fn lower_fill(job: &Job, cavity: &Solid) -> Vec<Change> {
    let (low, high) = cavity.bounds();
    let air = FILLS.map(|share| Length::from_m((1.0 - share) * (high.z - low.z)));
    let now = match job.checks.filled_to {
        FilledTo::Brim => Length::ZERO,
        FilledTo::Rated => job.liquid.air_space,
    };
    air.into_iter()
        .map(|air| job.about.round(air))
        .filter(|air| *air > now)
        .map(|air_space| {
            let mut job = job.clone();
            job.liquid.air_space = air_space;
            job.checks.filled_to = FilledTo::Rated;
            Change {
                what: What::LowerFill { air_space },
                job,
            }
        })
        .collect()
}
