//! Remedies: what would make a tank hold that does not, each tried and not guessed.
//!
//! The one loop of the trade: a change is made to the job, body, panels and welds are laid out
//! anew, and the load cases that govern are run again on the first mesh. What holds then is run
//! under all that ask for more than half before it is offered. The loop is bounded, and says what it tried.

use crate::body::{Body, body};
use crate::check::whole::{CaseRun, Figures, Score, Tank, Whole, trial};
use crate::finding::{Finding, Grade, Quantity};
use crate::job::{Axis, Inner, InnerJoint, InnerKind, InnerPlace, Job, Place, Rib, Strip, Support};
use crate::liquid::compartments;
use crate::panel::{Panel, Role};
use crate::panels::panels;
use crate::table::material::Material;
use crate::weld::hours::total;
use crate::weld::welds;
use brimful_geom::solid::Solid;
use brimful_units::{Length, Mass, Time, show};
use rayon::prelude::*;

/// Thicknesses that are tried above the tank's own: common sheets, mm and inch (trade practice,
/// from memory).
const SHEETS_MM: [f64; 12] = [
    5.0, 6.0, 6.35, 8.0, 9.525, 10.0, 12.0, 12.7, 15.0, 19.05, 20.0, 25.4,
];
/// Of them so many at most.
const MOST_SHEETS: usize = 3;
/// Baffles that are added at most.
const MOST_BAFFLES: usize = 3;
/// Room left over and under a baffle that is added, m.
const BAFFLE_GAP: Length = Length::from_mm(25.0);
/// Bands round the walls that are tried, few first.
const BANDS: [usize; 4] = [2, 5, 9, 14];
/// How far a band stands out, in thicknesses of the sheet.
const BAND_DEPTHS: f64 = 6.0;
/// Pairs of stays that are tried, few first.
const STAYS: [usize; 3] = [2, 5, 9];
/// Width of a stay.
const STAY_WIDTH: Length = Length::from_mm(60.0);
/// How far down the fill may be taken, as shares of the height, one after the other.
const FILLS: [f64; 3] = [0.85, 0.7, 0.55];

/// A change that was tried.
#[derive(Clone, Debug, PartialEq)]
pub struct Remedy {
    /// What is changed, in a sentence that says what to write in the job.
    pub change: String,
    /// What it comes to: under the load cases that governed, or where it holds under all that ask
    /// for more than half of something.
    pub score: Result<Score, String>,
    /// Whether everything that was over its limit holds.
    pub holds: bool,
    /// What it adds.
    pub adds: Option<Adds>,
}

/// What a change adds to the tank and to the work; less than nought where it saves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Adds {
    /// Weight of sheet.
    pub sheet: Mass,
    /// Length of rod, m of rod as laid.
    pub rod: Length,
    /// Work without sawing.
    pub hours: Time,
    /// In the currency of the quote, where the job gives prices.
    pub money: Option<f64>,
}

/// What was tried, and what was found.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Remedies {
    /// Everything tried, cheapest that holds first.
    pub tried: Vec<Remedy>,
    /// What it comes to.
    pub findings: Vec<Finding>,
}

/// Looks for changes that make the tank hold, if it does not.
pub fn remedies(job: &Job, whole: &Whole) -> Remedies {
    let limit = bulge_limit(job);
    let names = governing(whole, limit);
    if names.is_empty() {
        return Remedies::default();
    }
    let much = asking_much(whole);
    let Ok(now) = Trial::of(job) else {
        return Remedies::default();
    };
    let mut tried: Vec<Remedy> = changes(job, &now)
        .par_iter()
        .flat_map_iter(|kind| until_it_holds(kind, &now, &names, &much, limit))
        .collect();
    tried.sort_by(|a, b| {
        let cost = |remedy: &Remedy| remedy.adds.map_or(f64::INFINITY, |adds| adds.weight());
        b.holds.cmp(&a.holds).then(cost(a).total_cmp(&cost(b)))
    });
    let findings = vec![finding(job, &tried)];
    Remedies { tried, findings }
}

/// What is held against the bulge: the job's limit; clearance is a matter of room, not of strength.
fn bulge_limit(job: &Job) -> Option<Length> {
    job.checks.bulge
}

/// The load cases that ask most of panels, of seams and of the room beside the tank, where one of
/// them is over its limit; none where all holds.
fn governing(whole: &Whole, limit: Option<Length>) -> Vec<String> {
    type Kind = (fn(&Figures) -> f64, f64);
    let limit = limit.map_or(f64::INFINITY, |limit| limit.m());
    let kinds: [Kind; 3] = [
        (Figures::worst_panel, 1.0),
        (Figures::worst_seam, 1.0),
        (Figures::worst_bulge, limit),
    ];
    let mut names: Vec<String> = Vec::new();
    for (value, limit) in kinds {
        let by = |run: &&CaseRun| value(&run.figures);
        let worst = whole.cases.iter().max_by(|a, b| by(a).total_cmp(&by(b)));
        let over = worst.filter(|run| by(run) > limit);
        names.extend(over.map(|run| run.case.name.clone()));
    }
    names.sort();
    names.dedup();
    names
}

/// The load cases that ask for more than half of what any panel or seam has; a change that helps
/// where most is asked does not double what little the others ask.
fn asking_much(whole: &Whole) -> Vec<String> {
    const HALF: f64 = 0.5;
    let much = whole
        .cases
        .iter()
        .filter(|run| run.figures.worst_panel().max(run.figures.worst_seam()) > HALF);
    much.map(|run| run.case.name.clone()).collect()
}

/// A changed job, and how high it may be filled.
struct Change {
    says: String,
    job: Job,
    level: Option<Length>,
}

/// Every change that is worth a trial, by kind; of each kind the smallest first.
fn changes(job: &Job, now: &Trial) -> Vec<Vec<Change>> {
    let mut kinds = vec![
        thicker(job, &now.panels),
        more_baffles(job, &now.body),
        better_support(job, &now.body.solid),
        lower_fill(job, &now.body.cavity),
    ];
    if is_deep(&now.body.cavity) {
        kinds.push(bands_then_thicker(job, now));
        kinds.push(stays(job, &now.body));
    }
    kinds
}

/// Whether it is deeper than it is wide: bands and stays are for such, where the sides of a shallow
/// tank are held by floor and lid.
fn is_deep(cavity: &Solid) -> bool {
    let (low, high) = cavity.bounds();
    high.z - low.z > (high.x - low.x).min(high.y - low.y)
}

/// Tries the changes of one kind, the smallest first, until one holds.
fn until_it_holds(
    kind: &[Change],
    now: &Trial,
    names: &[String],
    much: &[String],
    limit: Option<Length>,
) -> Vec<Remedy> {
    let mut tried = Vec::new();
    for change in kind {
        tried.push(attempt(change, now, names, much, limit));
        if tried.last().is_some_and(|remedy| remedy.holds) {
            break;
        }
    }
    tried
}

fn thicker(job: &Job, panels: &[Panel]) -> Vec<Change> {
    let outer = panels.iter().filter(|panel| panel.face.is_some());
    let own = outer
        .map(|panel| panel.thickness)
        .fold(Length::ZERO, Length::max);
    let stock = job.stock.sheets.iter().map(|sheet| sheet.thickness);
    let mut sheets: Vec<Length> = SHEETS_MM
        .map(Length::from_mm)
        .into_iter()
        .chain(stock)
        .collect();
    sheets.sort_by(|a, b| a.m().total_cmp(&b.m()));
    // A shop buys by one system: sheets within a twentieth of each other are one choice.
    sheets.dedup_by(|a, b| (*a / *b - 1.0).abs() < 0.07);
    let thicker = sheets.into_iter().filter(|sheet| *sheet > own * 1.02);
    thicker
        .take(MOST_SHEETS)
        .filter_map(|thickness| {
            let mut job = job.clone();
            let body = job.body.as_mut()?;
            body.thickness = Some(thickness);
            body.thicknesses.clear();
            let text = Quantity::Length(thickness).text(&job.about);
            Some(Change {
                says: format!("Outer sheets of {text}: [body] thickness = \"{text}\"."),
                job,
                level: None,
            })
        })
        .collect()
}

/// One baffle and more, evenly spaced across the longer side, in place of those across it.
fn more_baffles(job: &Job, body: &Body) -> Vec<Change> {
    let (low, high) = body.cavity.bounds();
    let (axis, from, length) = if high.x - low.x >= high.y - low.y {
        (Axis::X, low.x, high.x - low.x)
    } else {
        (Axis::Y, low.y, high.y - low.y)
    };
    let shift = origin(job)[usize::from(axis != Axis::X)];
    let across = |inner: &Inner| match inner.at {
        InnerPlace::At { across, .. } => across == axis && inner.kind == InnerKind::Baffle,
        InnerPlace::Auto => inner.kind == InnerKind::Baffle,
    };
    let has = job.inner.iter().filter(|inner| across(inner)).count();
    let like = job.inner.iter().find(|inner| across(inner));
    let word = if axis == Axis::X { "x" } else { "y" };
    (has + 1..=has + MOST_BAFFLES)
        .map(|count| {
            let mut job = without_wall_openings(job, body);
            let template = like.cloned().unwrap_or_else(plain_baffle);
            job.inner.retain(|inner| !across(inner));
            let mut places = Vec::new();
            for i in 1..=count {
                let at = Length::from_m(from - shift + length * i as f64 / (count + 1) as f64);
                places.push(Quantity::Length(at).text(&job.about));
                job.inner.push(Inner {
                    name: format!("baffle {i}"),
                    at: InnerPlace::At { across: axis, at },
                    ..template.clone()
                });
            }
            Change {
                says: format!(
                    "{count} baffles across {word}, at {}: [[inner]] kind = \"baffle\", across = \"{word}\".",
                    places.join(", ")
                ),
                job,
                level: None,
            }
        })
        .collect()
}

fn plain_baffle() -> Inner {
    Inner {
        name: String::new(),
        kind: InnerKind::Baffle,
        at: InnerPlace::Auto,
        strip: None,
        thickness: None,
        air_gap: BAFFLE_GAP,
        drain_gap: BAFFLE_GAP,
        holes: Vec::new(),
        joint: InnerJoint::Tee,
        span: None,
        place: Place::default(),
    }
}

/// Bands, more and more of them; then the most on thicker sheet, since neither may do alone.
fn bands_then_thicker(job: &Job, now: &Trial) -> Vec<Change> {
    let mut changes = bands(job, &now.body, &BANDS);
    for sheet in thicker(job, &now.panels) {
        let most = bands(&sheet.job, &now.body, &BANDS[BANDS.len() - 1..]);
        changes.extend(most.into_iter().map(|change| Change {
            says: format!("{} {}", sheet.says, change.says),
            ..change
        }));
    }
    changes
}

/// Level bands round the walls, closer together low down: each carries as much of the pressure as
/// the next.
fn bands(job: &Job, body: &Body, counts: &[usize]) -> Vec<Change> {
    let (low, high) = body.cavity.bounds();
    let origin = origin(job);
    let depth = Length::from_m(BAND_DEPTHS * thickest(body).m());
    counts
        .iter()
        .map(|&count| {
            let heights: Vec<Length> = even_shares(count)
                .into_iter()
                .map(|share| Length::from_m(low.z + share * (high.z - low.z) - origin[2]))
                .collect();
            let texts: Vec<String> = heights
                .iter()
                .map(|z| Quantity::Length(*z).text(&job.about))
                .collect();
            let mut job = without_wall_openings(job, body);
            let says = format!(
                "{count} bands round the walls, {} deep, at {}: [[rib]] heights = [...], depth.",
                Quantity::Length(depth).text(&job.about),
                texts.join(", ")
            );
            job.ribs = vec![Rib {
                name: "band".to_owned(),
                heights,
                depth,
                thickness: None,
                panels: None,
                place: Place::default(),
            }];
            Change {
                says,
                job,
                level: None,
            }
        })
        .collect()
}

/// Strips from wall to wall inside, across both ways, closer together low down.
fn stays(job: &Job, body: &Body) -> Vec<Change> {
    let (low, high) = body.cavity.bounds();
    let origin = origin(job);
    STAYS
        .iter()
        .map(|&count| {
            let mut job = without_wall_openings(job, body);
            let mut texts = Vec::new();
            for share in even_shares(count) {
                let z = low.z + share * (high.z - low.z);
                let height = Length::from_m(z - origin[2]);
                texts.push(Quantity::Length(height).text(&job.about));
                for (axis, middle, word) in [
                    (Axis::X, (low.x + high.x) / 2.0 - origin[0], "x"),
                    (Axis::Y, (low.y + high.y) / 2.0 - origin[1], "y"),
                ] {
                    // One lies over the other where they cross.
                    let lift = if axis == Axis::X { STAY_WIDTH } else { Length::ZERO };
                    job.inner.push(Inner {
                        name: format!("stay across {word} at {}", texts.last().map_or("", |t| t)),
                        kind: InnerKind::Stay,
                        at: InnerPlace::At { across: axis, at: Length::from_m(middle) },
                        strip: Some(Strip {
                            height: height + lift,
                            width: STAY_WIDTH,
                            lies: false,
                        }),
                        air_gap: Length::ZERO,
                        drain_gap: Length::ZERO,
                        ..plain_baffle()
                    });
                }
            }
            Change {
                says: format!(
                    "{count} pairs of stays {} wide from wall to wall, in the middle both ways, at {}: [[inner]] kind = \"stay\".",
                    Quantity::Length(STAY_WIDTH).text(&job.about),
                    texts.join(", ")
                ),
                job,
                level: None,
            }
        })
        .collect()
}

/// A trial is not to fail by a fitting that can be moved: those in walls are left out of it, and the
/// layout of the real job says where they stand in the way.
fn without_wall_openings(job: &Job, body: &Body) -> Job {
    let in_wall = |name: &str| {
        let face = body.faces.iter().find(|face| face.name == name);
        face.is_none_or(|face| face.role == Role::Wall)
    };
    let mut job = job.clone();
    job.openings.retain(|opening| !in_wall(&opening.panel));
    job
}

/// Places between floor and lid, as shares of the height, that part a pressure falling from the
/// floor to nought at the lid into even shares, each strip in the middle of its own.
fn even_shares(count: usize) -> Vec<f64> {
    let height = |share: f64| 1.0 - (1.0 - share).sqrt();
    (0..count)
        .map(|i| height((i as f64 + 0.5) / count as f64))
        .collect()
}

fn thickest(body: &Body) -> Length {
    body.faces
        .iter()
        .map(|face| face.thickness)
        .fold(Length::ZERO, Length::max)
}

/// Where the body's own axes begin, m.
fn origin(job: &Job) -> [f64; 3] {
    job.body
        .as_ref()
        .map_or([0.0; 3], |body| body.at.map(Length::m))
}

/// A floor under all of it, or one rail more.
fn better_support(job: &Job, outside: &Solid) -> Vec<Change> {
    let (low, high) = outside.bounds();
    let mut changes = Vec::new();
    if job.support == Support::Floor {
        return changes;
    }
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
        let says = "A flat board under the whole floor: [support] kind = \"floor\".".to_owned();
        changes.push(Change {
            says,
            job,
            level: None,
        });
    }
    if let Support::Rails { along, at, width } = &job.support {
        let span = match along {
            Axis::Y => high.x - low.x,
            _ => high.y - low.y,
        };
        let count = at.len() + 1;
        let half = *width / 2.0;
        let reach = Length::from_m(span) - *width;
        let places: Vec<Length> = (0..count)
            .map(|i| half + reach * (i as f64 / (count - 1) as f64))
            .collect();
        let texts: Vec<String> = places
            .iter()
            .map(|at| Quantity::Length(*at).text(&job.about))
            .collect();
        let support = Support::Rails {
            along: *along,
            at: places,
            width: *width,
        };
        changes.push(Change {
            says: format!("{count} rails: [support] at = [{}].", texts.join(", ")),
            job: Job {
                support,
                ..job.clone()
            },
            level: None,
        });
    }
    changes
}

/// Never filled as high: an overflow lower down.
fn lower_fill(job: &Job, cavity: &Solid) -> Vec<Change> {
    let (low, high) = cavity.bounds();
    FILLS
        .iter()
        .map(|share| {
            let level = Length::from_m(low.z + share * (high.z - low.z));
            let text = Quantity::Length(level - Length::from_m(low.z)).text(&job.about);
            Change {
                says: format!(
                    "Never filled higher than {text} above the floor inside, which an overflow of full size at that height sees to."
                ),
                job: job.clone(),
                level: Some(level),
            }
        })
        .collect()
}

/// A job laid out as far as strength and cost need it.
struct Trial {
    body: Body,
    panels: Vec<Panel>,
    seams: Vec<crate::seam::Seam>,
    compartments: Vec<crate::liquid::Compartment>,
    welds: crate::weld::Welds,
    job: Job,
}

impl Trial {
    fn of(job: &Job) -> Result<Self, String> {
        let first = |faults: Vec<crate::shape::ShapeFault>| {
            faults
                .first()
                .map_or("it cannot be laid out".to_owned(), ToString::to_string)
        };
        let (body, _) = body(job).map_err(first)?;
        let (laid_out, found) = panels(job, &body).map_err(first)?;
        if let Some(stop) = found.iter().find(|finding| finding.grade == Grade::Stop) {
            return Err(stop.says.clone());
        }
        let compartments = compartments(&body, &laid_out.panels, &laid_out.seams)
            .map_err(|fault| fault.to_string())?;
        let welds = welds(job, &laid_out.panels, &laid_out.seams);
        Ok(Self {
            body,
            panels: laid_out.panels,
            seams: laid_out.seams,
            compartments,
            welds,
            job: job.clone(),
        })
    }

    fn score(&self, cases: &[String], level: Option<Length>) -> Result<Score, String> {
        let tank = Tank {
            job: &self.job,
            body: &self.body,
            panels: &self.panels,
            seams: &self.seams,
            compartments: &self.compartments,
        };
        trial(&tank, &self.welds.welds, cases, level)
    }

    /// Sheet in the tank, m2 by m, so m3.
    fn sheet(&self) -> f64 {
        let plates = self.panels.iter();
        plates
            .map(|panel| panel.finished.solid_with_cutouts().moments().volume)
            .sum()
    }

    fn rod(&self) -> (Length, Mass) {
        let rods = self.welds.rods.iter();
        rods.fold((Length::ZERO, Mass::ZERO), |(length, mass), rod| {
            (length + rod.length, mass + rod.mass)
        })
    }
}

fn attempt(
    change: &Change,
    now: &Trial,
    names: &[String],
    much: &[String],
    limit: Option<Length>,
) -> Remedy {
    let holds = |score: &Score| {
        score.panel <= 1.0 && score.seam <= 1.0 && limit.is_none_or(|limit| score.bulge <= limit)
    };
    let laid_out = Trial::of(&change.job);
    let mut score = match &laid_out {
        Ok(trial) => trial.score(names, change.level),
        Err(reason) => Err(reason.clone()),
    };
    // What holds under the cases that governed must hold under all that ask much.
    if let (Ok(trial), Ok(found)) = (&laid_out, &score)
        && holds(found)
    {
        score = trial.score(much, change.level);
    }
    Remedy {
        change: change.says.clone(),
        holds: score.as_ref().is_ok_and(holds),
        adds: laid_out
            .as_ref()
            .ok()
            .map(|trial| Adds::between(now, trial)),
        score,
    }
}

impl Adds {
    fn between(now: &Trial, then: &Trial) -> Self {
        let density = Material::of(&then.job.stock.material)
            .and_then(Material::density)
            .map_or(0.0, |density| density.value.kg_m3());
        let sheet = then.sheet() - now.sheet();
        let ((rod, rod_mass), (rod_now, rod_mass_now)) = (then.rod(), now.rod());
        let hours = total(&then.welds.hours) - total(&now.welds.hours);
        let quote = &then.job.quote;
        let thickness = then.panels.first().map_or(1.0, |panel| panel.thickness.m());
        let money = match (quote.sheet, quote.rod, quote.hour) {
            (Some(by_area), Some(by_mass), Some(by_hour)) => Some(
                by_area * sheet / thickness
                    + by_mass * (rod_mass - rod_mass_now).kg()
                    + by_hour * hours.hours(),
            ),
            _ => None,
        };
        Self {
            sheet: Mass::from_kg(density * sheet),
            rod: rod - rod_now,
            hours,
            money,
        }
    }

    /// For ranking: money, or where the job gives no prices kilograms and hours, an hour for two
    /// kilograms of sheet (a judgement, common practice).
    fn weight(&self) -> f64 {
        self.money
            .unwrap_or(self.sheet.kg() + 2.0 * self.hours.hours())
    }

    fn text(&self, job: &Job) -> String {
        let signed = |text: String, negative: bool| {
            if negative {
                format!("saves {text}")
            } else {
                format!("adds {text}")
            }
        };
        let mass = signed(
            show::mass(Mass::from_kg(self.sheet.kg().abs()), job.about.units),
            self.sheet < Mass::ZERO,
        );
        let money = match (&job.quote.currency, self.money) {
            (Some(currency), Some(money)) => format!(", {} {currency}", show::decimal(money, 2)),
            _ => String::new(),
        };
        format!(
            "{mass} of sheet, {} m of rod, {} h{money}",
            show::decimal(self.rod.m(), 1),
            show::decimal(self.hours.hours(), 1)
        )
    }
}

/// The best that was found, or that nothing was.
fn finding(job: &Job, tried: &[Remedy]) -> Finding {
    let held: Vec<&Remedy> = tried.iter().filter(|remedy| remedy.holds).collect();
    let count = tried.len();
    if held.is_empty() {
        return Finding::new(
            Grade::Note,
            "remedies",
            format!("Of {count} changes that were worked out none by itself makes the tank hold; they are listed with what each comes to."),
        )
        .source("each change laid out and run again as a whole-tank check on its first mesh, fittings in walls left out where ribs, stays or baffles are put in")
        .cure("Combine them, or make the tank smaller.");
    }
    let offers: Vec<String> = held
        .iter()
        .take(3)
        .map(|remedy| {
            let adds = remedy
                .adds
                .map_or(String::new(), |adds| format!(" ({})", adds.text(job)));
            format!("{}{adds}", remedy.change)
        })
        .collect();
    Finding::new(
        Grade::Note,
        "remedies",
        format!(
            "Of {count} changes that were worked out these make the tank hold, cheapest first: {}",
            offers.join(" ")
        ),
    )
    .source("each change laid out and run again as a whole-tank check on its first mesh, fittings in walls left out where ribs, stays or baffles are put in")
    .cure("Write one of them in the job and check again.")
}
