//! What can hurt: the cautions that go with every pack.

use brimful_units::UnitSystem;

/// One caution.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Caution {
    /// What it is about.
    pub about: &'static str,
    /// What to do and what not.
    pub text: &'static str,
    /// Where it comes from.
    pub source: &'static str,
}

/// All cautions, in the order of the work.
pub fn cautions(units: UnitSystem) -> [Caution; 11] {
    let (hot_gas, pressure) = match units {
        UnitSystem::Metric => (
            "Gas at 300 degC and a nozzle hotter still burn at once: gloves, sleeves, a stand for the gun, and let it cool on cold air before it is put away.",
            "Test with water, never with air: air stores energy, and one kilopascal on half a square metre pushes with 500 N. Fill to the brim with the vent open, a day long, on the floor it will stand on.",
        ),
        UnitSystem::Inch => (
            "Gas at 570 degF and a nozzle hotter still burn at once: gloves, sleeves, a stand for the gun, and let it cool on cold air before it is put away.",
            "Test with water, never with air: air stores energy, and one psi on a square foot pushes with 144 lbf. Fill to the brim with the vent open, a day long, on the floor it will stand on.",
        ),
    };
    [
        Caution {
            about: "saws and routers",
            text: "Guard, riving knife, eye and ear protection; clamp or lead small pieces, never hold them by hand at the blade. Soft stringy swarf winds itself round the arbor: stop before clearing it.",
            source: "common practice; stringers seen in a woodworker's tip list on UHMW PE",
        },
        Caution {
            about: "lifting",
            text: "Panels are slippery and bend; carry large ones between two people. Turn the tank over with two people and a clear floor. Never move it with liquid in it.",
            source: "common practice",
        },
        Caution {
            about: "hot gas",
            text: hot_gas,
            source: "DVS 2207-3 Supplement 1, draft of March 2013: gas 300 to 340 degC (seen); the rest common practice",
        },
        Caution {
            about: "fumes",
            text: "Work in moving air, with extraction at the seam. Plastic that smokes is too hot: stop and turn the heat down. Never weld PVC by mistake for PE: its fumes are acid.",
            source: "common practice",
        },
        Caution {
            about: "solvent near heat",
            text: "Clean by scraping. If a solvent is used at all, let it dry fully and keep can and rag away from the gun: vapour in a box with a hot gun in it can explode.",
            source: "common practice; scraping before welding, TWI Job knowledge 56 (seen)",
        },
        Caution {
            about: "inside a tank",
            text: "Nobody puts head and shoulders into a closed tank alone, nor while gas or solvent is in it.",
            source: "common practice",
        },
        Caution {
            about: "coupons first",
            text: "Weld two off-cuts of the same sheet with the same rod and bend them in a vice before the tank is started, each day and after each change of settings.",
            source: "TWI FAQ, bend test on off-cuts (seen)",
        },
        Caution {
            about: "pressure",
            text: pressure,
            source: "trade bulletins: no compressed gas in plastic (seen); a day brim-full from memory",
        },
        Caution {
            about: "filling",
            text: "Never fill from a tight hose without an open vent that passes as much as the hose: mains pressure bursts a flat-sided tank.",
            source: "camping supply pressures of 40 to 100 psi (seen)",
        },
        Caution {
            about: "drinking water",
            text: "Sheet, rod and fittings must each be fit for drinking water; a calculation does not make them so. Flush and disinfect before use.",
            source: "21 CFR 177.1520, NSF/ANSI/CAN 61 (scope seen)",
        },
        Caution {
            about: "rules",
            text: "This is a working paper, not a certificate. Local codes come first, and licensed practice where they ask for it: vehicles, boats, public water, and anything that harms when it leaks.",
            source: "the contract of this program",
        },
    ]
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_caution_is_whole() {
        for caution in [UnitSystem::Metric, UnitSystem::Inch]
            .map(cautions)
            .concat()
        {
            assert!(
                !caution.about.is_empty()
                    && caution.text.ends_with('.')
                    && !caution.source.is_empty()
            );
        }
    }
}
