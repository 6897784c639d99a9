//! What can hurt: the cautions that go with every pack. Their words and sources are for the faces.

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Caution {
    /// Blades, and what they throw.
    SawsAndRouters,
    /// Large panels and the tank itself.
    Lifting,
    /// The gun and what comes out of it.
    HotGas,
    /// What hot plastic gives off.
    Fumes,
    /// Solvent where there is heat.
    SolventNearHeat,
    /// Working inside.
    InsideATank,
    /// Test strips come first.
    CouponsFirst,
    /// Pressure in a flat-sided tank.
    Pressure,
    /// Filling from the mains.
    Filling,
    /// What drinking water asks for.
    DrinkingWater,
    /// What this is no substitute for.
    Rules,
}

impl Caution {
    /// Every caution, in the order of the work.
    pub const ALL: [Self; 11] = [
        Self::SawsAndRouters,
        Self::Lifting,
        Self::HotGas,
        Self::Fumes,
        Self::SolventNearHeat,
        Self::InsideATank,
        Self::CouponsFirst,
        Self::Pressure,
        Self::Filling,
        Self::DrinkingWater,
        Self::Rules,
    ];
}
