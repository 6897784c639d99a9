//! The whole job.

use super::about::About;
use super::body::BodySpec;
use super::checks::Checks;
use super::chocks::Chocks;
use super::compartment::CompartmentSpec;
use super::default::DefaultUsed;
use super::dry::DryRoom;
use super::event::Event;
use super::inner::Inner;
use super::liquid::Liquid;
use super::opening::Opening;
use super::place::Place;
use super::quote::Quote;
use super::rib::Rib;
use super::shop::Shop;
use super::space::Space;
use super::stock::Stock;
use super::support::Support;
use super::trim::Trim;
use super::vehicle::Vehicle;
use super::weld::OwnOrder;

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
    /// In which order the maker sets the panels; none: it is searched for.
    pub own_order: Option<OwnOrder>,
    /// Baffles, dividers and stays.
    pub inner: Vec<Inner>,
    /// Rooms with a liquid, or an amount wanted, of their own.
    pub compartments: Vec<CompartmentSpec>,
    /// Rooms that stay dry.
    pub dry: Vec<DryRoom>,
    /// Bands round the walls.
    pub ribs: Vec<Rib>,
    /// Fittings and hatches.
    pub openings: Vec<Opening>,
    /// What carries it.
    pub support: Support,
    /// What keeps it from sliding; none: friction alone.
    pub chocks: Option<Chocks>,
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
    /// Every liquid that goes into some room: the job's, then those of compartments.
    pub fn liquids(&self) -> impl Iterator<Item = Liquid> {
        let own = self.compartments.iter();
        let own = own.map(|compartment| compartment.liquid(&self.liquid));
        std::iter::once(self.liquid.clone()).chain(own)
    }

    /// Where the shape of the tank is written: the body's, or where there is none the space's.
    #[must_use]
    pub fn shape_place(&self) -> Place {
        let of_body = self.body.as_ref().map(|body| body.shape.place());
        let of_space = || self.space.as_ref().map(|space| space.measured.place());
        of_body.or_else(of_space).unwrap_or_default()
    }
}
