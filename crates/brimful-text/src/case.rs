//! Load cases, and what carries a tank, by what they are called.

use crate::text::Text;
use crate::words::Words;
use brimful_geom::vector::Point3;
use brimful_panels::case::{CaseId, Direction, EventPush, Fill, LoadKind, Tilt};
use brimful_panels::growth::WELDED;
use brimful_panels::liquid::Compartment;
use brimful_panels::panel::Panel;
use brimful_strength::whole::{BearerId, OnSupport, Pressing};
use brimful_units::Force;

impl<'a> Words<'a> {
    /// The same with the panels of a tank, so that a baffle is called by its name and not by its mark.
    #[must_use]
    pub fn with_panels(self, panels: &'a [Panel]) -> Self {
        Self { panels, ..self }
    }

    /// The same with the compartments of a tank, so that they are called as the job calls them.
    #[must_use]
    pub fn with_compartments(self, compartments: &'a [Compartment]) -> Self {
        Self {
            compartments,
            ..self
        }
    }

    /// What a load case is called.
    pub fn case(&self, id: CaseId) -> Text {
        let load = match (id.event, id.tilt) {
            (Some(push), _) => self.event(push),
            (None, Some(tilt)) => self.tilted(tilt),
            (None, None) => self.load(id.kind),
        };
        match id.fill {
            Fill::All => load,
            Fill::Alone(room) => {
                say!(
                    self,
                    "{load}, {room} alone",
                    load = load,
                    room = self.compartment(room)
                )
            }
            Fill::Behind(panel) => {
                let panel = match self.panels.get(panel) {
                    Some(panel) => self.panel(&panel.name),
                    None => say!(self, "P{number}", number = panel + 1),
                };
                say!(
                    self,
                    "{load}, liquid only behind {panel}",
                    load = load,
                    panel = panel
                )
            }
        }
    }

    /// A load case at a place: `worst at x 1 mm, y 2 mm, z 3 mm (full at rest)`.
    pub(crate) fn worst_at(&self, at: Point3, case: CaseId) -> Text {
        say!(
            self,
            "worst at {place} ({case})",
            place = self.place(at),
            case = self.case(case)
        )
    }

    fn load(&self, kind: LoadKind) -> Text {
        let warmth = |now| {
            let welded = self.temperature(WELDED);
            say!(
                self,
                "full, welded at {welded}, now {now}",
                welded = welded,
                now = self.temperature(now)
            )
        };
        match kind {
            LoadKind::Rest => say!(self, "full at rest"),
            LoadKind::Test => say!(self, "leak test with water"),
            LoadKind::Filling => say!(self, "being filled, liquid standing above the lid"),
            LoadKind::Suction => say!(self, "empty, suction of a shut vent"),
            LoadKind::Coldest => warmth(self.job.liquid.coldest),
            LoadKind::Warmest => warmth(self.job.liquid.warmest),
            LoadKind::OnLid => say!(self, "empty, somebody on the lid"),
            LoadKind::Event => say!(self, "event"),
        }
    }

    fn tilted(&self, tilt: Tilt) -> Text {
        let [heel, pitch] = tilt.angles(&self.job.trim).map(|angle| self.angle(angle));
        say!(
            self,
            "full at rest, heel {heel}, pitch {pitch}",
            heel = heel,
            pitch = pitch
        )
    }

    fn event(&self, push: EventPush) -> Text {
        let name = match self.job.events.get(push.event) {
            Some(event) => self.given(&event.name),
            None => say!(self, "event {number}", number = push.event + 1),
        };
        say!(
            self,
            "{name}, {way}",
            name = name,
            way = self.direction(push.direction)
        )
    }

    fn direction(&self, direction: Direction) -> Text {
        match direction {
            Direction::Forward => say!(self, "forward"),
            Direction::Rear => say!(self, "to the rear"),
            Direction::Left => say!(self, "to the left"),
            Direction::Right => say!(self, "to the right"),
            Direction::Down => say!(self, "down"),
            Direction::Up => say!(self, "up"),
            Direction::All { forward, left, up } => {
                let pick = |first, one, other| self.direction(if first { one } else { other });
                say!(
                    self,
                    "all at once: {x}, {y}, {z}",
                    x = pick(forward, Direction::Forward, Direction::Rear),
                    y = pick(left, Direction::Left, Direction::Right),
                    z = pick(up, Direction::Up, Direction::Down),
                )
            }
        }
    }

    /// What presses on a support at rest, at most, and under which load; blank where nothing does.
    pub fn pressing(&self, pressing: Option<Pressing>) -> [Text; 3] {
        pressing.map_or_else(Default::default, |it| {
            [
                self.mass(it.at_rest),
                self.mass(it.most),
                self.case(it.load),
            ]
        })
    }

    /// What a support is taken to hold sideways, what friction holds of it, what is left, and under which load; blank where
    /// there is nothing to say.
    pub fn held_sideways(&self, row: &OnSupport) -> [Text; 4] {
        let force = |force: Option<Force>| force.map_or_else(Text::default, |it| self.force(it));
        [
            self.force(row.sideways),
            force(row.friction),
            force(row.not_held()),
            self.case(row.sideways_load),
        ]
    }

    /// What carries the tank.
    pub fn bearer(&self, id: BearerId) -> Text {
        match id {
            BearerId::Floor => say!(self, "floor"),
            BearerId::Bed => say!(self, "bed"),
            BearerId::Rail(at) => say!(self, "rail at {at}", at = self.length(at)),
            BearerId::Strap(at) => say!(self, "strap at {at}", at = self.length(at)),
            BearerId::Chock(number) => {
                let panels = self.job.chocks.iter().flat_map(|chocks| &chocks.panels);
                let panel = panels.into_iter().nth(number).map(|it| self.given(it));
                say!(
                    self,
                    "chock at the {panel}",
                    panel = panel.unwrap_or_default()
                )
            }
            BearerId::Foot([x, y]) => {
                say!(
                    self,
                    "foot at {x}, {y}",
                    x = self.length(x),
                    y = self.length(y)
                )
            }
        }
    }
}
