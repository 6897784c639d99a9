//! `[weld]`: the order of work, where the maker has one of their own.

use super::fault::{FaultKind, Items};
use super::place::Place;
use super::reader::{Field, MOST_IN_A_LIST, Section};
use std::collections::BTreeSet;

/// The order in which the maker sets the panels.
#[derive(Clone, Debug, PartialEq)]
pub struct OwnOrder {
    /// The panels, the first to stand first; ribs may be left out.
    pub panels: Vec<OrderedPanel>,
    /// Where it is written.
    pub place: Place,
}

/// A panel of an order.
#[derive(Clone, Debug, PartialEq)]
pub struct OrderedPanel {
    /// Its name.
    pub name: String,
    /// Where it is written.
    pub place: Place,
}

impl OwnOrder {
    /// Reads the order of `[weld]`: `Some(None)` where there is none, `None` after a fault.
    pub(super) fn read(section: &Section<'_>) -> Option<Option<Self>> {
        let order = section.optional("order", |field| {
            Some(Self {
                panels: field.all(1..=MOST_IN_A_LIST, Items::Names, panel)?,
                place: field.place(),
            })
        });
        section.refuse_unknown_keys();
        let panels = order.iter().flatten().flat_map(|order| &order.panels);
        refuse_panels_twice(section, panels);
        order
    }
}

fn panel(field: &Field<'_>) -> Option<OrderedPanel> {
    Some(OrderedPanel {
        name: field.text()?,
        place: field.place(),
    })
}

fn refuse_panels_twice<'n>(section: &Section<'_>, panels: impl Iterator<Item = &'n OrderedPanel>) {
    let mut names = BTreeSet::new();
    for OrderedPanel { name, place } in panels {
        if !names.insert(name) {
            let kind = FaultKind::SetTwice { name: name.clone() };
            let reading = section.reading();
            reading.note(&place.span, "weld.order", kind.into());
        }
    }
}
