//! The job: one tank to be made, as its file says it, with every default filled in.
//!
//! [`Job::parse`] reads the text of a job file. It lists every fault at once, each with its place, or gives the whole job together with the list of the defaults it used. Whether the
//! shapes make sense as solids is found later; every shape keeps its [`Place`] for that.

mod about;
mod body;
mod checks;
mod default;
mod defaults;
mod echo;
mod event;
mod fault;
mod form;
mod inner;
mod keys;
mod known_liquids;
mod liquid;
mod opening;
mod parse;
mod place;
mod quote;
mod reader;
mod reference;
mod rib;
mod shape;
mod shop;
mod space;
mod starter;
mod stock;
mod support;
mod trim;
mod vehicle;
mod write;

pub use about::{About, Duty, LengthUnit};
pub use body::{BodyShape, BodySpec, Faceted, JointChoice, JointKind};
pub use checks::{Checks, FilledTo};
pub use default::{DefaultReason, DefaultSource, DefaultUsed, DefaultValue};
pub use event::{Event, EventFlag};
pub use fault::{Conflict, FaultKind, Form, Items, JobFault, Missing, Named, OutOfRange};
pub use form::{KeyForm, Limits, Presence};
pub use inner::{Hole, Inner, InnerJoint, InnerKind, InnerPlace, Strip};
pub use liquid::{Capacity, Liquid, Wanted};
pub use opening::{Faces, GoesOn, Opening, OpeningSize, Service};
pub use place::Place;
pub use quote::Quote;
pub use reference::{
    DefaultOfKey, KeyReference, LONGEST_LENGTH, LONGEST_LIST, SectionReference, nearest_key,
    reference,
};
pub use rib::Rib;
pub use shape::{Axis, Obstacle, ObstacleShape, Outline, ShapeSpec};
pub use shop::{Cutting, Nozzle, Process, Rates, Shop};
pub use space::{
    Base, LeaningWall, Measured, Scan, Side, Space, Station, TapedRoom, Twisted, WayIn,
};
pub use starter::starter;
pub use stock::{RodForm, RodStock, SheetStock, Stock};
pub use support::Support;
pub use trim::{AngleRange, Trim};
pub use vehicle::{Axle, Vehicle};
pub use write::{Entry, Write, Written, writes};

/// One tank to be made, every default filled in.
#[derive(Clone, Debug, PartialEq)]
pub struct Job {
    /// Name, units, duty.
    pub about: About,
    /// The measured hole; there is always a space or a body.
    pub space: Option<Space>,
    /// The outside as given; none: it is fitted to the space.
    pub body: Option<BodySpec>,
    /// What goes in.
    pub liquid: Liquid,
    /// How it stands.
    pub trim: Trim,
    /// Sheets and rod.
    pub stock: Stock,
    /// How the shop works.
    pub shop: Shop,
    /// Baffles, dividers and stays.
    pub inner: Vec<Inner>,
    /// Bands round the walls.
    pub ribs: Vec<Rib>,
    /// Fittings and hatches.
    pub openings: Vec<Opening>,
    /// What carries it.
    pub support: Support,
    /// What carries it on the road.
    pub vehicle: Option<Vehicle>,
    /// What the road does; empty for a standing tank, and for one afloat that names none.
    pub events: Vec<Event>,
    /// What it is held to.
    pub checks: Checks,
    /// The shop's prices.
    pub quote: Quote,
    /// Every default that was used, in the order of the file's sections.
    pub defaults: Vec<DefaultUsed>,
}

impl Job {
    /// Reads the text of a job file. Touches no disk.
    ///
    /// # Errors
    /// Every fault of the text, in the order of their places; never an empty list. After a slip
    /// in the TOML itself only the first few slips and what is sure in spite of them are listed.
    pub fn parse(text: &str) -> Result<Self, Vec<JobFault>> {
        parse::parse(text)
    }

    /// Where the shape of the tank is written: the body's, or where there is none the space's.
    #[must_use]
    pub fn shape_place(&self) -> Place {
        let of_body = self.body.as_ref().map(|body| body.shape.place());
        let of_space = || self.space.as_ref().map(|space| space.measured.place());
        of_body.or_else(of_space).unwrap_or_default()
    }
}

#[cfg(test)]
mod tests;
