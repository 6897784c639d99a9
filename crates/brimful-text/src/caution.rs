//! Cautions in words, each with where it comes from.

use crate::text::Text;
use crate::words::Words;
use brimful_panels::weld::cautions::Caution;
use brimful_units::UnitSystem;

/// A caution in words.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CautionText {
    /// What it is about.
    pub about: Text,
    /// What to do and what not.
    pub text: Text,
    /// Where it comes from.
    pub source: Text,
}

impl Words<'_> {
    /// A caution in words.
    pub fn caution(&self, caution: Caution) -> CautionText {
        let (about, text, source) = match caution {
            Caution::SawsAndRouters => (
                say!(self, "saws and routers"),
                say!(
                    self,
                    "Guard, riving knife, eye and ear protection; clamp or lead small pieces, never hold them by hand at the blade. Soft stringy swarf winds itself round the arbor: stop before clearing it."
                ),
                say!(
                    self,
                    "common practice; stringers seen in a woodworker's tip list on UHMW PE"
                ),
            ),
            Caution::Lifting => (
                say!(self, "lifting"),
                say!(
                    self,
                    "Panels are slippery and bend; carry large ones between two people. Turn the tank over with two people and a clear floor. Never move it with liquid in it."
                ),
                say!(self, "common practice"),
            ),
            Caution::HotGas => (
                say!(self, "hot gas"),
                self.hot_gas(),
                say!(
                    self,
                    "DVS 2207-3 Supplement 1, draft of March 2013: gas 300 to 340 degC (seen); the rest common practice"
                ),
            ),
            Caution::Fumes => (
                say!(self, "fumes"),
                self.fumes(),
                say!(self, "common practice"),
            ),
            Caution::SolventNearHeat => (
                say!(self, "solvent near heat"),
                say!(
                    self,
                    "Clean by scraping. If a solvent is used at all, let it dry fully and keep can and rag away from the gun: vapour in a box with a hot gun in it can explode."
                ),
                say!(
                    self,
                    "common practice; scraping before welding, TWI Job knowledge 56 (seen)"
                ),
            ),
            Caution::InsideATank => (
                say!(self, "inside a tank"),
                say!(
                    self,
                    "Nobody puts head and shoulders into a closed tank alone, nor while gas or solvent is in it."
                ),
                say!(self, "common practice"),
            ),
            Caution::CouponsFirst => (
                say!(self, "coupons first"),
                say!(
                    self,
                    "Weld two off-cuts of the same sheet with the same rod and bend them in a vice before the tank is started, each day and after each change of settings."
                ),
                say!(self, "TWI FAQ, bend test on off-cuts (seen)"),
            ),
            Caution::Pressure => (
                say!(self, "pressure"),
                self.test_pressure(),
                say!(
                    self,
                    "trade bulletins: no compressed gas in plastic (seen); a day brim-full from memory"
                ),
            ),
            Caution::Filling => (
                say!(self, "filling"),
                say!(
                    self,
                    "Never fill from a tight hose without an open vent that passes as much as the hose: mains pressure bursts a flat-sided tank."
                ),
                say!(self, "camping supply pressures of 40 to 100 psi (seen)"),
            ),
            Caution::DrinkingWater => (
                say!(self, "drinking water"),
                say!(
                    self,
                    "Sheet, rod and fittings must each be fit for drinking water; a calculation does not make them so. Flush and disinfect before use."
                ),
                say!(self, "21 CFR 177.1520, NSF/ANSI/CAN 61 (scope seen)"),
            ),
            Caution::Rules => (
                say!(self, "rules"),
                say!(
                    self,
                    "This is a working paper, not a certificate. Local codes come first, and licensed practice where they ask for it: vehicles, boats, public water, and anything that harms when it leaks."
                ),
                say!(self, "common practice"),
            ),
        };
        CautionText {
            about,
            text,
            source,
        }
    }

    fn hot_gas(&self) -> Text {
        match self.system {
            UnitSystem::Metric => say!(
                self,
                "Gas at 300 degC and a nozzle hotter still burn at once: gloves, sleeves, a stand for the gun, and let it cool on cold air before it is put away."
            ),
            UnitSystem::Inch => say!(
                self,
                "Gas at 570 degF and a nozzle hotter still burn at once: gloves, sleeves, a stand for the gun, and let it cool on cold air before it is put away."
            ),
        }
    }

    fn fumes(&self) -> Text {
        match self.job.stock.material.as_str() {
            "PVC-U" => say!(
                self,
                "Work in moving air, with extraction at the seam: the fumes of PVC are acid, burn eyes and lungs and rust tools. PVC that smokes or turns brown is too hot: stop, turn the heat down and cut the place out."
            ),
            _ => say!(
                self,
                "Work in moving air, with extraction at the seam. Plastic that smokes is too hot: stop and turn the heat down. Never weld PVC by mistake for PE: its fumes are acid."
            ),
        }
    }

    fn test_pressure(&self) -> Text {
        match self.system {
            UnitSystem::Metric => say!(
                self,
                "Test with water, never with air: air stores energy, and one kilopascal on half a square metre pushes with 500 N. Fill to the brim with the vent open, a day long, on the floor it will stand on."
            ),
            UnitSystem::Inch => say!(
                self,
                "Test with water, never with air: air stores energy, and one psi on a square foot pushes with 144 lbf. Fill to the brim with the vent open, a day long, on the floor it will stand on."
            ),
        }
    }
}
