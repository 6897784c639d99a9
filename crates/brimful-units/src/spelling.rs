//! The word that was probably meant.

/// The candidate nearest to `word`, if it is near enough to be worth offering: the same but for
/// upper and lower case, or no more than a third of its letters (at least one) slipped, swapped,
/// missing or too many.
#[must_use]
pub fn nearest<'a>(word: &str, candidates: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    /// Longer words than this are no slip of the pen, and the comparison is quadratic.
    const LONGEST_WORD: usize = 64;
    let lower = word.to_lowercase();
    if lower.len() > LONGEST_WORD {
        return None;
    }
    let allowed_slips = (lower.chars().count() / 3).max(1);
    candidates
        .into_iter()
        .map(|candidate| {
            let slips = strsim::damerau_levenshtein(&lower, &candidate.to_lowercase());
            (slips, candidate)
        })
        .filter(|(slips, candidate)| {
            *slips <= allowed_slips && *slips < candidate.chars().count().max(1) || *slips == 0
        })
        .min_by_key(|(slips, _)| *slips)
        .map(|(_, candidate)| candidate)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_is_found_and_a_stranger_is_not() {
        let keys = ["clearance", "height", "obstacle"];
        assert_eq!(nearest("clearence", keys), Some("clearance"));
        assert_eq!(nearest("hieght", keys), Some("height"));
        assert_eq!(nearest("HEIGHT", keys), Some("height"));
        assert_eq!(nearest("colour", keys), None);
        assert_eq!(nearest("x", ["L", "m3"]), None);
        assert_eq!(nearest(&"a".repeat(100_000), keys), None);
    }
}
