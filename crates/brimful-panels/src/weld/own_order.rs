//! The maker's own order of setting the panels: which panels it names, and whether it can be followed.

use super::order::by_rule;
use crate::finding::kind::OrderMisfit;
use crate::name::PanelName;
use crate::panel::{Panel, Role};
use crate::shape::{ShapeFault, ShapeFaultKind};
use brimful_job::OwnOrder;

/// Names in an order that no panel has.
pub fn faults(order: Option<&OwnOrder>, panels: &[Panel]) -> Vec<ShapeFault> {
    let unknown = order.into_iter().flat_map(|order| &order.panels);
    let unknown = unknown.filter(|it| !panels.iter().any(|panel| panel.name == *it.name));
    let fault = |it: &brimful_job::OrderedPanel| {
        let kind = ShapeFaultKind::OwnOrder {
            panel: it.name.clone(),
            panels: panels.iter().map(|panel| panel.name.clone()).collect(),
        };
        ShapeFault::new(&it.place, kind)
    };
    unknown.map(fault).collect()
}

/// All panels in an order by names, ribs that it leaves out at the end by the fixed rule; a name that no panel has is
/// passed over.
///
/// # Errors
/// Why it cannot be followed.
pub fn followed<'a>(
    names: impl IntoIterator<Item = &'a str>,
    panels: &[Panel],
) -> Result<Vec<usize>, OrderMisfit> {
    let mut order: Vec<usize> = Vec::new();
    for name in names {
        let number = panels.iter().position(|panel| panel.name == *name);
        order.extend(number.filter(|number| !order.contains(number)));
    }
    let left_out = by_rule(panels).into_iter();
    let left_out: Vec<usize> = left_out.filter(|it| !order.contains(it)).collect();
    let is_rib = |number: &usize| panels[*number].role == Role::Rib;
    let named = |numbers: &[usize]| -> Vec<PanelName> {
        let but_ribs = numbers.iter().filter(|it| !is_rib(it));
        but_ribs.map(|&it| panels[it].name.clone()).collect()
    };
    let missing = named(&left_out);
    if !missing.is_empty() {
        return Err(OrderMisfit::LeavesOut(missing));
    }
    let is_outer = |number: &usize| panels[*number].role.is_outer();
    let closed = order.iter().rposition(is_outer).map_or(0, |it| it + 1);
    let shut_out = named(&order[closed..]);
    if !shut_out.is_empty() {
        return Err(OrderMisfit::ShutsOut(shut_out));
    }
    let (ribs, body): (Vec<usize>, Vec<usize>) = order.into_iter().partition(is_rib);
    Ok([body, ribs, left_out].concat())
}
