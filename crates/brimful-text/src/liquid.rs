//! What is in a tank, in words: one liquid, or one a compartment.

use crate::text::Text;
use crate::words::Words;
use brimful_job::Liquid;
use brimful_panels::liquid::{Compartment, Holds};
use brimful_panels::name::CompartmentId;

impl Words<'_> {
    /// What is in the tank, `of` each liquid: once where all compartments hold the same.
    pub fn liquids(&self, of: impl Fn(&Liquid) -> Text) -> Text {
        if self.holds_one_liquid() {
            return of(&self.job.liquid);
        }
        let rooms = self.holding().map(|room| {
            let name = self.compartment(room.id);
            say!(
                self,
                "{room}: {liquid}",
                room = name,
                liquid = of(&room.contents)
            )
        });
        Text::join(rooms, "; ")
    }

    /// A room for liquid, with what is in it where others hold something else.
    pub fn compartment_and_liquid(&self, id: CompartmentId) -> Text {
        let name = self.compartment(id);
        let own = self.holding().find(|room| room.id == id);
        match own.filter(|_| !self.holds_one_liquid()) {
            None => name,
            Some(room) => say!(
                self,
                "{room}: {liquid}",
                room = name,
                liquid = self.liquid(&room.contents)
            ),
        }
    }

    /// A liquid by its kind, or by its density where nothing else is known, and by what is in it.
    pub fn liquid(&self, liquid: &Liquid) -> Text {
        let plain = match &liquid.kind {
            Some(kind) => self.given(kind),
            None => self.density(liquid.density),
        };
        if liquid.additives.is_empty() {
            return plain;
        }
        let additives = liquid.additives.iter().map(|it| self.data(it));
        say!(
            self,
            "{liquid} with {additives}",
            liquid = plain,
            additives = Text::join(additives, ", ")
        )
    }

    fn holding(&self) -> impl Iterator<Item = &Compartment> {
        let rooms = self.compartments.iter();
        rooms.filter(|room| room.holds != Holds::Nothing)
    }

    fn holds_one_liquid(&self) -> bool {
        self.holding().all(|room| room.holds_liquid_of(self.job))
    }
}
