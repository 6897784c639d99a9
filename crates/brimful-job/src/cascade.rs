//! One cause, one fault: what merely follows from another fault is not listed beside it.

use super::fault::{FaultKind, JobFault};
use std::collections::BTreeSet;

/// The faults without those that follow from another.
pub(super) fn without_cascade(faults: Vec<JobFault>) -> Vec<JobFault> {
    without_misspelt(without_syntax_cascade(faults))
}

/// What follows from a syntax error: what was lost with its line (a key, the unit of lengths), or a
/// fault on that same line.
fn without_syntax_cascade(faults: Vec<JobFault>) -> Vec<JobFault> {
    let is_syntax = |fault: &JobFault| {
        matches!(
            fault.kind,
            FaultKind::NotToml { .. } | FaultKind::KeyTwice | FaultKind::TooDeep
        )
    };
    let syntax = faults.iter().filter(|fault| is_syntax(fault));
    let lines: BTreeSet<usize> = syntax.map(|fault| fault.line).collect();
    if lines.is_empty() {
        return faults;
    }
    let follows = |fault: &JobFault| {
        let lost = matches!(
            fault.kind,
            FaultKind::Missing(_) | FaultKind::BareLength { .. }
        );
        lost || lines.contains(&fault.line)
    };
    let mut faults = faults;
    faults.retain(|fault| is_syntax(fault) || !follows(fault));
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
    let follows = |fault: &JobFault| match &fault.kind {
        FaultKind::Missing(missing) => {
            let keys = missing.keys();
            let mut misspelt = misspelt.iter();
            misspelt.any(|(section, key)| *section == fault.path && keys.contains(&key.as_str()))
        }
        _ => false,
    };
    faults.retain(|fault| !follows(fault));
    faults
}
