//! The tables of the trade: materials, factors and welding settings, a source on every row.
//!
//! The rows stand in `data/*.csv` and are compiled in. A value comes with where it is from and
//! how sure it is. Nothing is extrapolated: outside a table the answer is [`NotCovered`]. What
//! the road does to a tank and how heavy liquids are stands with the job, beside its defaults.

pub mod creep_rupture;
pub mod factor;
pub mod fixture;
pub mod friction;
pub mod heat;
pub mod kit;
pub mod material;
pub mod motion;
mod motion_kind;
mod not_covered;
pub mod pull;
pub mod repeat;
mod row;
pub mod run;
mod setting;
pub mod sheet;
mod source;
pub mod welding;

pub use not_covered::NotCovered;
pub use source::{Cited, Flag, LoadOrigin, PropertyValue, Source, Sourced, SourcedValue};

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_whole() {
        for row in material::CREEP_MODULUS.iter() {
            assert!(row.hours > 0.0 && row.psi > 0.0 && !row.source.is_empty());
        }
        for row in material::TEMPERATURE_FACTOR.iter() {
            assert!(row.degf.is_finite() && row.factor > 0.0 && !row.source.is_empty());
        }
        for row in material::PROPERTY.iter() {
            assert!(row.value > 0.0 && !row.unit.is_empty() && !row.source.is_empty());
        }
        for row in creep_rupture::CREEP_RUPTURE.iter() {
            assert!(!row.source.is_empty());
        }
        for row in creep_rupture::LONGEST_SERVICE.iter() {
            assert!(row.years > 0.0 && !row.source.is_empty());
        }
        for row in repeat::REPEATED_LOAD.iter() {
            assert!(!row.source.is_empty());
        }
        for row in repeat::LOAD_TIME.iter() {
            assert!(!row.source.is_empty());
        }
        for row in friction::FRICTION.iter() {
            assert!(row.value > 0.0 && !row.source.is_empty());
        }
        for row in motion::MOTION_BAND.iter() {
            assert!(0.0 < row.low && row.low < row.high && !row.source.is_empty());
        }
        for row in kit::KIT.iter() {
            assert!(row.value > 0.0 && !row.of.is_empty() && !row.quantity.is_empty());
            assert!(["mm", "deg"].contains(&row.unit.as_str()) && !row.source.is_empty());
        }
        for row in fixture::FIXTURE.iter() {
            assert!(0.0 < row.low && row.low <= row.high && !row.source.is_empty());
            assert!(["mm", "deg", "count"].contains(&row.unit.as_str()));
            assert!(!row.of.is_empty() && !row.quantity.is_empty());
        }
        for row in pull::PULL.iter() {
            assert!(0.0 < row.low && row.low < row.value && row.value < row.high);
            assert!(!row.source.is_empty());
        }
        for row in heat::PROPERTY.iter() {
            assert!(row.value > 0.0 && !row.source.is_empty());
        }
        for row in heat::HEATING.iter() {
            assert!(0.0 < row.low && row.low <= row.value && row.value <= row.high);
            assert!(!row.source.is_empty());
        }
        for row in run::RUN.iter() {
            assert!(0.0 < row.low && row.low <= row.high && !row.of.is_empty());
            assert!(["mm", "%", "kg", "1"].contains(&row.unit.as_str()));
            assert!(!row.quantity.is_empty() && !row.source.is_empty());
        }
        for row in run::ROD_SPEED.iter() {
            assert!(0.0 < row.low && row.low < row.high && !row.source.is_empty());
        }
        for row in factor::LIQUID_EFFECT.iter() {
            assert!(!row.source.is_empty());
        }
        for row in factor::FACTOR.iter() {
            assert!(row.value > 0.0 && !row.source.is_empty());
        }
        for row in welding::SETTING.iter() {
            assert!(row.low <= row.high && !row.source.is_empty());
            assert!(row.kind().is_some(), "{}", row.quantity);
            assert!(row.range().is_some(), "{}", row.unit);
        }
    }
}
