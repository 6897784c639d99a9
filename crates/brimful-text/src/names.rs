//! Parts of a tank by their names.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::finding::{Part, Subject};
use brimful_panels::name::{CompartmentId, FaceName, HoleName, PanelName, Side};
use brimful_panels::panel::Panel;
use brimful_panels::seam::Seam;

impl Words<'_> {
    /// The two panels of a seam: `front / floor`.
    pub fn panels_of(&self, seam: &Seam, panels: &[Panel]) -> Text {
        let name = |number: usize| {
            let panel = panels.get(number);
            panel.map_or_else(Text::default, |it| self.panel(&it.name))
        };
        Text::join(seam.panels.map(name), " / ")
    }

    /// What a finding is about.
    pub fn subject(&self, subject: &Subject) -> Text {
        match subject {
            Subject::Part(part) => self.part(*part),
            Subject::Panel(name) => self.panel(name),
            Subject::Panels(names) => self.panels(names),
            Subject::Span(name, number) => self.span(name, Some(*number)),
            Subject::Seam(mark, panels) => {
                let [one, other] = panels.each_ref().map(|name| self.panel(name));
                say!(
                    self,
                    "{mark} ({one} to {other})",
                    mark = self.given(mark),
                    one = one,
                    other = other
                )
            }
            Subject::Seams(marks) => Text::join(marks.iter().map(|mark| self.given(mark)), ", "),
            Subject::Opening(name) | Subject::Named(name) => self.given(name),
            Subject::Case(id) => self.case(*id),
            Subject::Candidate(name) => self.candidate(name),
            Subject::Compartment(id) => self.compartment(*id),
            Subject::Vent(id) => say!(self, "vent of the {room}", room = self.compartment(*id)),
            Subject::Overflow(id) => {
                say!(self, "overflow of the {room}", room = self.compartment(*id))
            }
            Subject::Filling(id) => {
                say!(self, "filling of the {room}", room = self.compartment(*id))
            }
        }
    }

    /// What a panel is called.
    pub fn panel(&self, name: &PanelName) -> Text {
        match name {
            PanelName::Face(face) => self.face(*face),
            PanelName::Inner { name, number } => match number {
                None => self.given(name),
                Some(number) => self.numbered(self.given(name), *number),
            },
            PanelName::Rib {
                name,
                band,
                wall,
                stretch,
            } => {
                let (name, wall) = (self.given(name), self.face(*wall));
                let strip = match band {
                    None => say!(self, "{name} {wall}", name = name, wall = wall),
                    Some(band) => {
                        say!(
                            self,
                            "{name} band {band} {wall}",
                            name = name,
                            band = *band,
                            wall = wall
                        )
                    }
                };
                match stretch {
                    1 => strip,
                    number => say!(
                        self,
                        "{strip}, stretch {number}",
                        strip = strip,
                        number = *number
                    ),
                }
            }
            PanelName::Upper(whole) => say!(self, "{whole} upper", whole = self.panel(whole)),
        }
    }

    /// A list of panels.
    pub fn panels(&self, names: &[PanelName]) -> Text {
        Text::join(names.iter().map(|name| self.panel(name)), ", ")
    }

    /// A face of the body.
    pub fn face(&self, face: FaceName) -> Text {
        match face.number {
            1 => self.side(face.side),
            number => self.numbered(self.side(face.side), number),
        }
    }

    /// One of the spans of a panel; none where it is the whole of it.
    pub fn span(&self, name: &PanelName, number: Option<usize>) -> Text {
        let panel = self.panel(name);
        match number {
            None => panel,
            Some(number) => say!(
                self,
                "{panel}, span {number}",
                panel = panel,
                number = number
            ),
        }
    }

    /// A hole in a panel.
    pub fn hole(&self, name: &HoleName) -> Text {
        match name {
            HoleName::Opening(name) => self.given(name),
            HoleName::Inner(number) => self.numbered(say!(self, "hole"), *number),
        }
    }

    /// A room for liquid.
    pub fn compartment(&self, id: CompartmentId) -> Text {
        let plain = match id {
            CompartmentId::Only => say!(self, "tank"),
            CompartmentId::Number(number) => say!(self, "compartment {number}", number = number),
        };
        let own = self.compartments.iter().find(|room| room.id == id);
        match own.and_then(|room| room.spec.as_ref()?.name.as_ref()) {
            None => plain,
            Some(name) => say!(
                self,
                "{room} ({name})",
                room = plain,
                name = self.given(name)
            ),
        }
    }

    fn side(&self, side: Side) -> Text {
        match side {
            Side::Floor => say!(self, "floor"),
            Side::Lid => say!(self, "lid"),
            Side::Front => say!(self, "front"),
            Side::Rear => say!(self, "rear"),
            Side::Left => say!(self, "left"),
            Side::Right => say!(self, "right"),
        }
    }

    fn numbered(&self, name: Text, number: usize) -> Text {
        say!(self, "{name} {number}", name = name, number = number)
    }

    fn part(&self, part: Part) -> Text {
        match part {
            Part::Auto => say!(self, "auto"),
            Part::Axles => say!(self, "axles"),
            Part::Baffles => say!(self, "baffles"),
            Part::Body => say!(self, "body"),
            Part::Capacity => say!(self, "capacity"),
            Part::CutLayout => say!(self, "cut layout"),
            Part::Events => say!(self, "events"),
            Part::Fit => say!(self, "what fits"),
            Part::Fittings => say!(self, "fittings"),
            Part::Freezing => say!(self, "freezing"),
            Part::Hatches => say!(self, "hatches"),
            Part::Lid => say!(self, "lid"),
            Part::Liquid => say!(self, "liquid"),
            Part::Openings => say!(self, "openings"),
            Part::OrderOfWork => say!(self, "order of work"),
            Part::Panels => say!(self, "panels"),
            Part::Payload => say!(self, "payload"),
            Part::QuickCheck => say!(self, "quick check"),
            Part::Quote => say!(self, "quote"),
            Part::Remedies => say!(self, "remedies"),
            Part::Rod => say!(self, "rod"),
            Part::Seams => say!(self, "seams"),
            Part::Space => say!(self, "space"),
            Part::Stock => say!(self, "stock"),
            Part::Strength => say!(self, "strength"),
            Part::Support => say!(self, "support"),
            Part::WayIn => say!(self, "way in"),
            Part::WeldingSpeed => say!(self, "welding speed"),
        }
    }
}
