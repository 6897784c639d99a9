//! Units against their definitions and against rounded tables.

use super::*;

/// Room for the last bit or two of a double after one multiplication and one division.
const ROUNDING: f64 = 4.0 * f64::EPSILON;

fn same(found: f64, wanted: f64) {
    assert!(
        (found - wanted).abs() <= ROUNDING * wanted.abs(),
        "found {found:e}, wanted {wanted:e}"
    );
}

/// NIST SP 811 (2008), Appendix B.8 (boldface factors are exact); from memory.
#[test]
fn units_have_their_defined_size() {
    same(Length::from_inches(1.0).mm(), 25.4);
    same(Length::from_feet(1.0).m(), 0.3048);
    same(Area::from_in2(1.0).m2(), 6.4516e-4);
    same(Area::from_ft2(1.0).m2(), 9.290_304e-2);
    same(Volume::from_in3(1.0).m3(), 1.638_706_4e-5);
    same(Volume::from_us_gal(1.0).in3(), 231.0);
    same(Volume::from_us_gal(1.0).litres(), 3.785_411_784);
    same(Volume::from_imp_gal(1.0).litres(), 4.546_09);
    same(Volume::from_ft3(1.0).in3(), 1728.0);
    same(Mass::from_lb(1.0).kg(), 0.453_592_37);
    same(Mass::from_oz(16.0).lb(), 1.0);
    same(Force::from_lbf(1.0).n(), 4.448_221_615_260_5);
    same(Acceleration::from_g(1.0).m_s2(), 9.806_65);
    same(Pressure::from_bar(1.0).kpa(), 100.0);
}

/// NIST SP 811 B.8 rounds these to seven figures: psi 6.894 757 E+03 Pa, lb/gal (US)
/// 1.198 264 E+02, lb/ft3 1.601 846 E+01; from memory.
#[test]
fn derived_units_agree_with_the_rounded_table() {
    let to_seven_figures = |found: f64, table: f64| (found / table - 1.0).abs() < 5e-7;
    assert!(to_seven_figures(Pressure::from_psi(1.0).pa(), 6.894_757e3));
    assert!(to_seven_figures(
        Density::from_lb_us_gal(1.0).kg_m3(),
        119.8264
    ));
    assert!(to_seven_figures(
        Density::from_lb_ft3(1.0).kg_m3(),
        16.018_46
    ));
    same(
        (Force::from_lbf(1.0) / Area::from_in2(1.0)).pa(),
        Pressure::from_psi(1.0).pa(),
    );
}

/// Fixed points: ice 32 degF = 0 degC, steam 212 degF = 100 degC, and -40 on both scales.
#[test]
fn fahrenheit_meets_celsius_at_the_fixed_points() {
    for (degf, degc) in [(32.0, 0.0), (212.0, 100.0), (-40.0, -40.0)] {
        let found = Temperature::from_degf(degf).degc();
        assert!((found - degc).abs() < 1e-12, "{degf} degF is {found} degC");
    }
    same(Temperature::from_degf(0.0).kelvin(), 459.67 * 5.0 / 9.0);
}

#[test]
fn products_and_their_undoing_agree() {
    let area = Length::from_mm(400.0) * Length::from_m(1.0);
    same(area.m2(), 0.4);
    same((area / Length::from_m(1.0)).mm(), 400.0);
    let volume = area * Length::from_mm(250.0);
    same(volume.litres(), 100.0);
    same((volume * Density::from_kg_m3(998.2)).kg(), 99.82);
    same(
        (Speed::from_mm_min(300.0) * Time::from_minutes(2.0)).mm(),
        600.0,
    );
    same(Angle::from_slope(1.0).deg(), 45.0);
}

#[test]
fn order_is_total() {
    let mut lengths = [3.0, 1.0, 2.0].map(Length::from_mm);
    lengths.sort_by(Length::total_cmp);
    assert_eq!(lengths, [1.0, 2.0, 3.0].map(Length::from_mm));
    assert_eq!(lengths[0].max(lengths[2]), lengths[2]);
    assert_eq!(Length::from_mm(1.0).min(-lengths[0]), -lengths[0]);
    assert_eq!(lengths.into_iter().sum::<Length>().m(), 0.006);
}
