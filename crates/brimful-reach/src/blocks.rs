//! Sets of plates as bits, and the least of them.

/// A set of plates, a bit each by its number.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub struct Plates(u128);

impl Plates {
    /// More plates have no bits.
    pub const MOST: usize = 128;
    /// No plate.
    pub const NONE: Self = Self(0);

    /// One plate.
    pub fn one(number: usize) -> Self {
        Self(1 << number)
    }
    /// Those of either.
    pub fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }
    /// Those of this set that are in the other too.
    pub fn shared(self, other: Self) -> Self {
        Self(self.0 & other.0)
    }
    /// Whether all of this set are in the other.
    pub fn are_in(self, other: Self) -> bool {
        self.0 & !other.0 == 0
    }
    /// Whether none of this set is in the other.
    pub fn are_clear_of(self, other: Self) -> bool {
        self.0 & other.0 == 0
    }
    /// Whether a plate is in the set.
    pub fn contains(self, number: usize) -> bool {
        self.0 >> number & 1 == 1
    }
    /// How many there are.
    pub fn count(self) -> u32 {
        self.0.count_ones()
    }
    /// Their numbers, rising.
    pub fn numbers(self) -> impl Iterator<Item = usize> {
        (0..Self::MOST).filter(move |&number| self.contains(number))
    }
}

impl FromIterator<usize> for Plates {
    fn from_iter<T: IntoIterator<Item = usize>>(numbers: T) -> Self {
        let each = numbers.into_iter().map(Self::one);
        each.fold(Self::NONE, Self::and)
    }
}

/// What keeps a place from being reached: for each pose the plates that it runs into, of which no set
/// contains another. Empty where no pose is free of the work itself.
#[derive(Clone, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Blocks(Vec<Plates>);

impl Blocks {
    /// Whether some pose is free of all plates that stand.
    pub fn is_reached(&self, standing: Plates) -> bool {
        self.0
            .iter()
            .any(|blocking| blocking.are_clear_of(standing))
    }

    /// Whether some pose is free of all plates.
    pub fn is_always_reached(&self) -> bool {
        self.covers(Plates::NONE)
    }

    /// The fewest of the standing plates that would have to be away; none where no pose gets there at all.
    pub fn in_the_way(&self, standing: Plates) -> Option<Plates> {
        let blocking = self.0.iter().map(|blocking| blocking.shared(standing));
        blocking.min_by_key(|blocking| (blocking.count(), *blocking))
    }

    /// Whether a pose that runs into these plates, and perhaps into more, adds nothing.
    pub(crate) fn covers(&self, plates: Plates) -> bool {
        self.0.iter().any(|blocking| blocking.are_in(plates))
    }

    /// Takes a pose in that runs into these plates.
    pub(crate) fn add(&mut self, plates: Plates) {
        if !self.covers(plates) {
            self.0.retain(|blocking| !plates.are_in(*blocking));
            self.0.push(plates);
            self.0.sort_unstable();
        }
    }

    /// The poses of either.
    pub fn or(mut self, other: &Self) -> Self {
        other.0.iter().for_each(|&plates| self.add(plates));
        self
    }

    /// What is free of both: a pose of the one together with a pose of the other.
    pub fn with(&self, other: &Self) -> Self {
        let mut both = Self::default();
        for one in &self.0 {
            other.0.iter().for_each(|it| both.add(one.and(*it)));
        }
        both
    }
}

impl FromIterator<Plates> for Blocks {
    fn from_iter<T: IntoIterator<Item = Plates>>(poses: T) -> Self {
        let mut blocks = Self::default();
        poses.into_iter().for_each(|plates| blocks.add(plates));
        blocks
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plates<const N: usize>(numbers: [usize; N]) -> Plates {
        numbers.into_iter().collect()
    }

    #[test]
    fn only_the_least_sets_are_kept() {
        let mut blocks = Blocks::default();
        for set in [
            plates([1, 2]),
            plates([1, 2, 3]),
            plates([2]),
            plates([3, 100]),
        ] {
            blocks.add(set);
        }
        assert_eq!(blocks, Blocks(vec![plates([2]), plates([3, 100])]));
        assert!(blocks.is_reached(plates([1, 2])));
        assert!(!blocks.is_reached(plates([2, 3])));
        assert_eq!(blocks.in_the_way(plates([2, 3])), Some(plates([2])));
        assert_eq!(Blocks::default().in_the_way(plates([2])), None);
    }

    #[test]
    fn both_are_free_where_each_is() {
        let [mut one, mut other] = [Blocks::default(), Blocks::default()];
        one.add(plates([1]));
        one.add(plates([2]));
        other.add(plates([2]));
        other.add(plates([3]));
        let both = one.with(&other);
        for standing in [
            plates([]),
            plates([1]),
            plates([2]),
            plates([3]),
            plates([1, 3]),
            plates([2, 3]),
        ] {
            let each = one.is_reached(standing) && other.is_reached(standing);
            assert_eq!(both.is_reached(standing), each, "{standing:?}");
        }
        let either = one.or(&other);
        assert!(either.is_reached(plates([1, 2])) && !either.is_reached(plates([1, 2, 3])));
    }
}
