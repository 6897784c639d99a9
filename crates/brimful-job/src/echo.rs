//! One cause, one fault: what merely follows from another fault is not listed beside it.

use super::fault::{FaultKind, JobFault};
use std::collections::BTreeSet;

/// The faults without those that follow from another.
pub(super) fn without_echoes(faults: Vec<JobFault>) -> Vec<JobFault> {
    without_misspelt(without_slipped(faults))
}

/// What follows from a slip in the TOML: what was lost with its line (a key, the unit of lengths), or a
/// fault on that same line.
fn without_slipped(faults: Vec<JobFault>) -> Vec<JobFault> {
    let is_slip = |fault: &JobFault| {
        matches!(
            fault.kind,
            FaultKind::NotToml { .. } | FaultKind::KeyTwice | FaultKind::TooDeep
        )
    };
    let slips = faults.iter().filter(|fault| is_slip(fault));
    let slipped: BTreeSet<usize> = slips.map(|fault| fault.line).collect();
    if slipped.is_empty() {
        return faults;
    }
    let is_echo = |fault: &JobFault| {
        let lost = matches!(
            fault.kind,
            FaultKind::Missing(_) | FaultKind::BareLength { .. }
        );
        lost || slipped.contains(&fault.line)
    };
    let mut faults = faults;
    faults.retain(|fault| is_slip(fault) || !is_echo(fault));
    faults
}

/// What is missing because its key is misspelt.
fn without_misspelt(mut faults: Vec<JobFault>) -> Vec<JobFault> {
    let misspelt: Vec<(String, String)> = faults
        .iter()
        .filter_map(|fault| {
            let section = match &fault.kind {
                FaultKind::UnknownKey { section, .. } => section.clone(),
                FaultKind::UnknownSection { .. } => String::new(),
                _ => return None,
            };
            Some((section, fault.nearest.clone()?))
        })
        .collect();
    let is_echo = |fault: &JobFault| match &fault.kind {
        FaultKind::Missing(missing) => {
            let keys = missing.keys();
            let mut misspelt = misspelt.iter();
            misspelt.any(|(section, key)| *section == fault.path && keys.contains(&key.as_str()))
        }
        _ => false,
    };
    faults.retain(|fault| !is_echo(fault));
    faults
}
