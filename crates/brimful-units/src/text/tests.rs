//! Every spelling in use, every fault, and a round trip through print.

use super::*;
use crate::show::{self, InchFraction, LengthStyle, UnitSystem};
use proptest::prelude::*;

fn mm(text: &str) -> f64 {
    match length_text(text) {
        Ok(Read::Quantity(length)) => length.mm(),
        other => panic!("{text}: {other:?}"),
    }
}

fn near(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() <= 1e-12 * wanted.abs(),
        "{found} for {wanted}"
    );
}

#[test]
fn lengths_as_shops_write_them() {
    let feet_and_inches = (4.0 * 12.0 + 2.5) * 25.4;
    for (text, wanted) in [
        ("450 mm", 450.0),
        ("450mm", 450.0),
        (" 450  mm ", 450.0),
        ("1.2 m", 1200.0),
        ("1,5 m", 1500.0),
        ("0,125 m", 125.0),
        (".5 m", 500.0),
        ("45 cm", 450.0),
        ("17 3/4 in", 17.75 * 25.4),
        ("17-3/4 in", 17.75 * 25.4),
        ("17\u{be} in", 17.75 * 25.4),
        ("17 \u{be} in", 17.75 * 25.4),
        ("\u{bd} in", 0.5 * 25.4),
        ("17 3/4\"", 17.75 * 25.4),
        ("17.75\"", 17.75 * 25.4),
        ("3/4 in.", 0.75 * 25.4),
        ("17.75 inches", 17.75 * 25.4),
        ("4 ft 2 1/2 in", feet_and_inches),
        ("4' 2-1/2\"", feet_and_inches),
        ("4'2 1/2\"", feet_and_inches),
        ("4'-2 1/2\"", feet_and_inches),
        ("4\u{2032} 2 1/2\u{2033}", feet_and_inches),
        ("4 ft", 48.0 * 25.4),
        ("-4' 2-1/2\"", -feet_and_inches),
        ("-3 mm", -3.0),
        ("\u{2212}3 mm", -3.0),
    ] {
        near(mm(text), wanted);
    }
}

#[test]
fn a_bare_length_is_the_callers_to_know() {
    assert_eq!(length_text("450"), Ok(Read::Bare(450.0)));
    assert_eq!(length_text("17 3/4"), Ok(Read::Bare(17.75)));
}

#[test]
fn other_quantities() {
    let read = |result: Result<f64, UnitError>, wanted: f64| {
        near(result.expect("a readable quantity"), wanted);
    };
    read(volume_text("100 L").map(Volume::litres), 100.0);
    read(volume_text("100l").map(Volume::litres), 100.0);
    read(volume_text("250 ml").map(Volume::litres), 0.25);
    read(volume_text("0,1 m3").map(Volume::litres), 100.0);
    read(volume_text("26 US gal").map(Volume::in3), 26.0 * 231.0);
    read(volume_text("10 imp gal").map(Volume::litres), 45.4609);
    read(mass_text("10 lb").map(Mass::kg), 4.535_923_7);
    read(mass_text("1.25 t").map(Mass::kg), 1250.0);
    read(pressure_text("200 MPa").map(Pressure::pa), 2e8);
    read(
        temperature_text("35 \u{b0}C").map(Temperature::kelvin),
        308.15,
    );
    read(temperature_text("50 degF").map(Temperature::degc), 10.0);
    read(
        density_text("11.06 lb/US gal").map(Density::kg_m3),
        11.06 * 0.453_592_37 / 3.785_411_784e-3,
    );
    read(angle_text("2 %").map(Angle::slope), 0.02);
    read(angle_text("20 mm/m").map(Angle::slope), 0.02);
    read(time_text("10 years").map(Time::days), 3652.5);
    read(speed_text("300 mm/min").map(Speed::m_s), 0.005);
    read(mass_rate_text("3.6 kg/h").map(MassRate::kg_s), 0.001);
    read(flow_rate_text("60 L/min").map(FlowRate::m3_s), 0.001);
    read(area_text("1 sq ft").map(Area::in2), 144.0);
}

#[test]
fn faults_say_where_and_what_was_meant() {
    let length = |text: &str| length_text(text).expect_err(text);
    assert_eq!(length("").fault, UnitFault::Empty);
    assert_eq!(length("mm").fault, UnitFault::NotANumber);
    assert_eq!(length("nan mm").fault, UnitFault::NotANumber);
    assert_eq!(length("inf mm").fault, UnitFault::NotANumber);
    assert_eq!(length("1/0 in").fault, UnitFault::ZeroDenominator);
    assert_eq!(length("1,200 mm").fault, UnitFault::ThousandsOrDecimal);
    assert_eq!(length("4 ft 14 in").fault, UnitFault::InchesOverTwelve);
    assert_eq!(length("4 ft 2").fault, UnitFault::MissingUnit);
    assert_eq!(length("4 mm 2 mm").fault, UnitFault::LeftOver);
    assert_eq!(length(&"9".repeat(400)).fault, UnitFault::NotFinite);
    let slip = length("450 mmm");
    assert_eq!(slip.nearest, Some("mm"));
    assert_eq!(slip.span, 4..7);
    assert_eq!(length("450 MM").nearest, Some("mm"));
    assert_eq!(length("8 feets").nearest, Some("ft"));
    assert_eq!(length("8 feets").allowed, ["mm", "cm", "m", "in", "ft"]);

    let gallon = volume_text("26 gal").expect_err("two gallons");
    assert_eq!(gallon.span, 3..6);
    assert_eq!(
        gallon.to_string(),
        "`gal` alone may be either of two gallons; write `US gal` or `imp gal`"
    );
    let per_gallon = density_text("11 lb/gal").expect_err("two gallons");
    assert!(matches!(per_gallon.fault, UnitFault::PlainGallon { .. }));
    assert_eq!(
        volume_text("100").expect_err("bare").fault,
        UnitFault::MissingUnit
    );
    assert_eq!(
        temperature_text("-300 degC").expect_err("cold").fault,
        UnitFault::BelowAbsoluteZero
    );
}

proptest! {
    #[test]
    fn any_text_is_read_or_refused(text in "\\PC*") {
        let _ = length_text(&text);
        let _ = volume_text(&text);
        let _ = temperature_text(&text);
    }

    #[test]
    fn likely_text_is_read_or_refused(text in "[-0-9 .,/'\"a-zµ°]{0,24}") {
        if let Err(error) = length_text(&text) {
            prop_assert!(error.span.start <= error.span.end && error.span.end <= text.len());
            prop_assert!(text.get(error.span).is_some());
        }
    }

    #[test]
    fn millimetres_come_back(tenths in -100_000_i32..100_000) {
        let length = Length::from_mm(f64::from(tenths) / 10.0);
        let text = show::length(length, LengthStyle::Millimetre);
        let Ok(Read::Quantity(again)) = length_text(&text) else { panic!("{text}") };
        prop_assert!((again - length).abs().m() < 1e-12, "{text}");
    }

    #[test]
    fn inches_come_back_to_the_fraction(sixty_fourths in -10_000_i32..10_000) {
        let length = Length::from_inches(f64::from(sixty_fourths) / 64.0);
        for (fraction, half) in [(InchFraction::Sixteenth, 1.0 / 32.0), (InchFraction::ThirtySecond, 1.0 / 64.0)] {
            let text = show::length(length, LengthStyle::Inch { fraction });
            let Ok(Read::Quantity(again)) = length_text(&text) else { panic!("{text}") };
            prop_assert!((again - length).abs().inches() <= half + 1e-12, "{text}");
        }
    }

    #[test]
    fn litres_and_gallons_come_back(tenths in 1_u32..100_000) {
        for (system, volume) in [
            (UnitSystem::Metric, Volume::from_litres(f64::from(tenths) / 10.0)),
            (UnitSystem::Inch, Volume::from_us_gal(f64::from(tenths) / 10.0)),
        ] {
            let text = show::volume(volume, system);
            let again = volume_text(&text).expect("printed text is readable");
            prop_assert!((again / volume - 1.0).abs() < 1e-12, "{text}");
        }
    }
}
