//! The job: one tank to be made, as its file says it, with every default filled in.
//!
//! [`Job::parse`] reads the text of a job file. It lists every fault at once, each with its place, or gives the whole job together with the list of the defaults it used. Whether the
//! shapes make sense as solids is found later; every shape keeps its [`Place`] for that.

mod about;
mod axis;
mod body;
mod cascade;
mod checks;
mod chocks;
mod compartment;
mod default;
mod defaults;
mod dry;
mod event;
mod extruder;
mod fault;
mod form;
mod inner;
mod inner_kind;
mod job;
mod keys;
mod known_liquids;
mod length_unit;
mod liquid;
mod opening;
mod parse;
mod path;
mod place;
mod quote;
mod reader;
mod reference;
mod rib;
mod room;
mod shape;
mod shop;
mod space;
mod starter;
mod stock;
mod support;
mod trim;
mod vehicle;
mod weld;
mod write;

pub use about::{About, Duty};
pub use axis::Axis;
pub use body::{BodyShape, BodySpec, Faceted, JointChoice, JointKind};
pub use checks::{Checks, FilledTo};
pub use chocks::Chocks;
pub use compartment::{CompartmentSpec, OtherLiquid};
pub use default::{DefaultReason, DefaultSource, DefaultUsed, DefaultValue};
pub use dry::DryRoom;
pub use event::{Event, EventFlag};
pub use fault::{Conflict, FaultKind, Form, Items, JobFault, Missing, Named, OutOfRange};
pub use form::{KeyForm, Limits, Presence};
pub use inner::{Hole, Inner, InnerJoint, InnerPlace, Strip};
pub use inner_kind::InnerKind;
pub use job::Job;
pub use known_liquids::Attacks;
pub use length_unit::LengthUnit;
pub use liquid::{Capacity, Liquid, Wanted};
pub use opening::{Faces, GoesOn, Opening, OpeningSize, Service};
pub use place::Place;
pub use quote::Quote;
pub use reference::{
    DefaultOfKey, KeyReference, LONGEST_LENGTH, LONGEST_LIST, SectionReference, nearest_key,
    reference,
};
pub use rib::Rib;
pub use shape::{Obstacle, ObstacleShape, Outline, ShapeSpec};
pub use shop::{Cutting, Extruder, Nozzle, Process, Rates, Shop};
pub use space::{
    Base, LeaningWall, Measured, Scan, Side, Space, Station, TapedRoom, Twisted, WayIn,
};
pub use starter::starter;
pub use stock::{RodForm, RodStock, SheetStock, Stock};
pub use support::Support;
pub use trim::{AngleRange, Trim};
pub use vehicle::{Axle, Vehicle};
pub use weld::{OrderedPanel, OwnOrder};
pub use write::{Entry, Write, Written, writes};

#[cfg(test)]
mod tests;
