//! Factors on strength: weld, safety, medium.

use super::not_covered::NotCovered;
use super::row::rows;
use super::source::{Cited, Flag, Source, Sourced, SourcedValue};
use crate::table::material::Duration;
use brimful_job::Process;
use serde::Deserialize;
use std::sync::LazyLock;

#[derive(Deserialize)]
pub(super) struct Row {
    kind: String,
    of: String,
    pub value: f64,
    flag: Flag,
    pub source: String,
}

pub(super) static FACTOR: LazyLock<Vec<Row>> =
    LazyLock::new(|| rows(include_str!("data/factor.csv")));

/// How much a failure would matter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LoadClass {
    /// The load is constant and failure harms nobody.
    ConstantAndHarmless,
    /// The load changes, or failure would harm.
    ChangingOrHarmful,
}

/// The strength of a weld over that of the sheet.
pub fn weld_factor(process: Process, duration: Duration) -> Result<Sourced<f64>, NotCovered> {
    let kind = match duration {
        Duration::Short => "short weld factor",
        Duration::Long => "long weld factor",
    };
    let of = match process {
        Process::HotGas => "hot gas",
        Process::Extrusion => "extrusion",
    };
    factor(kind, of)
}

/// The factor of safety.
pub fn safety_factor(class: LoadClass) -> Result<Sourced<f64>, NotCovered> {
    factor(
        "safety factor",
        match class {
            LoadClass::ConstantAndHarmless => "class I",
            LoadClass::ChangingOrHarmful => "class II",
        },
    )
}

/// The reduction A2 for what is in the liquid: that of the worst additive.
pub fn medium_factor(additives: &[String]) -> Result<Sourced<f64>, NotCovered> {
    let mut worst = factor("medium factor", "nothing added")?;
    for additive in additives {
        let this = factor("medium factor", additive)?;
        if this.value > worst.value {
            worst = this;
        }
    }
    Ok(worst)
}

fn factor(kind: &'static str, of: &str) -> Result<Sourced<f64>, NotCovered> {
    let found = FACTOR.iter().find(|row| row.kind == kind && row.of == of);
    let row = found.ok_or_else(|| NotCovered::Word {
        table: kind,
        word: of.to_owned(),
    })?;
    Ok(Sourced {
        value: row.value,
        sources: vec![Source {
            value: SourcedValue::Factor {
                name: kind,
                value: row.value,
                of: &row.of,
            },
            flag: row.flag,
            cited: Cited::Row(&row.source),
        }],
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// DVS 2205-1, from memory: long-time weld factors of PE and PP.
    #[test]
    fn weld_factors() {
        let value = |process, duration| weld_factor(process, duration).expect("a row").value;
        assert_eq!(value(Process::HotGas, Duration::Long), 0.4);
        assert_eq!(value(Process::Extrusion, Duration::Long), 0.6);
        assert_eq!(value(Process::HotGas, Duration::Short), 0.8);
    }

    #[test]
    fn the_worst_additive_counts() {
        let words = ["salt".to_owned(), "detergent".to_owned()];
        assert_eq!(medium_factor(&[]).expect("a row").value, 1.0);
        assert_eq!(medium_factor(&words[..1]).expect("a row").value, 1.0);
        assert_eq!(medium_factor(&words).expect("a row").value, 2.0);
        assert!(medium_factor(&["aqua regia".to_owned()]).is_err());
    }

    /// Every additive that a job may name has a factor.
    #[test]
    fn every_additive_of_the_job_has_a_row() {
        for additive in [
            "surfactant",
            "detergent",
            "oxidiser",
            "disinfectant",
            "antifreeze",
            "fertiliser",
            "salt",
        ] {
            assert!(factor("medium factor", additive).is_ok(), "{additive}");
        }
    }
}
