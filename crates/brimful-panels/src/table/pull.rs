//! How much a bead draws in along itself while it cools.

use super::material::Material;
use super::row::rows;
use super::source::{Cited, Flag, Source, SourcedValue};
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    material: String,
    pub low: f64,
    pub value: f64,
    pub high: f64,
    flag: Flag,
    pub source: String,
}

pub(super) static PULL: LazyLock<Vec<Row>> = LazyLock::new(|| rows(include_str!("data/pull.csv")));

/// The strain that a bead would have if nothing held it, as a share: the least, the likely and the greatest. It is the
/// bead's own, and the modulus has no part in it.
#[derive(Clone, Debug, PartialEq)]
pub struct InherentStrain {
    /// The least, the likely and the greatest; alike where the shop has measured it.
    pub strain: [f64; 3],
    /// Where it is from.
    pub source: Source,
}

/// That of a material; `measured` is the shop's own. None where neither is known.
pub fn inherent_strain(material: Material, measured: Option<f64>) -> Option<InherentStrain> {
    let source = |strain: [f64; 3], flag: Flag, cited: Cited| Source {
        value: SourcedValue::Heat {
            name: "inherent strain of a bead",
            range: [strain[0] * 100.0, strain[2] * 100.0],
            unit: "%",
        },
        flag,
        cited,
    };
    if let Some(measured) = measured {
        let strain = [measured; 3];
        return Some(InherentStrain {
            strain,
            source: source(strain, Flag::Given, Cited::Job),
        });
    }
    let row = PULL
        .iter()
        .find(|row| row.material == material.row_name())?;
    let strain = [row.low, row.value, row.high];
    Some(InherentStrain {
        strain,
        source: source(strain, row.flag, Cited::Row(&row.source)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_shop_measured_has_no_range() {
        let own = inherent_strain(Material::Hdpe, Some(0.017)).unwrap();
        assert_eq!(own.strain, [0.017; 3]);
        let [low, likely, high] = inherent_strain(Material::Pp, None).unwrap().strain;
        assert!(low < likely && likely < high);
        assert_eq!(inherent_strain(Material::PvcU, None), None);
    }
}
