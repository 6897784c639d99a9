//! Flat drawings as DXF, release 12 in ASCII: the one that every machine shop reads.
//!
//! Input is in metres; the file is in millimetres or inches and says so (`$INSUNITS`,
//! `$MEASUREMENT`). Group codes after the published "DXF Reference" of release 12.

use std::fmt::Write;

use brimful_geom::vector::Point2;

use crate::decimal::trimmed;
use crate::error::FormatError;

/// The unit of the numbers in the file.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfUnit {
    /// Millimetres.
    Millimetre,
    /// Inches of 25.4 mm.
    Inch,
}

/// A colour by its number in the standard palette.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DxfColour {
    /// 1
    Red = 1,
    /// 2
    Yellow = 2,
    /// 3
    Green = 3,
    /// 4
    Cyan = 4,
    /// 5
    Blue = 5,
    /// 6
    Magenta = 6,
    /// 7: black on white paper, white on a dark screen.
    Ink = 7,
    /// 8
    Grey = 8,
}

/// A corner of an outline and the way to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DxfVertex {
    /// Where it is, metres.
    pub point: Point2,
    /// Tangent of a quarter of the angle of the arc to the next corner, positive
    /// counterclockwise; zero for a straight side.
    pub bulge: f64,
}

/// A drawing being made.
#[derive(Clone, Debug)]
pub struct DxfDrawing {
    unit: DxfUnit,
    layers: Vec<(String, DxfColour)>,
    entities: Vec<(String, Shape)>,
}

#[derive(Clone, Debug)]
enum Shape {
    Outline(Vec<DxfVertex>),
    Circle {
        centre: Point2,
        radius: f64,
    },
    Line {
        from: Point2,
        to: Point2,
    },
    Text {
        at: Point2,
        height: f64,
        text: String,
    },
}

impl DxfDrawing {
    /// An empty drawing.
    pub fn new(unit: DxfUnit) -> Self {
        Self {
            unit,
            layers: Vec::new(),
            entities: Vec::new(),
        }
    }
    /// Declares a layer. In the file its name is in capitals, with `_` for whatever release 12
    /// does not allow in a name.
    pub fn layer(&mut self, name: &str, colour: DxfColour) -> &mut Self {
        let name = layer_name(name);
        if !self.layers.iter().any(|(known, _)| *known == name) {
            self.layers.push((name, colour));
        }
        self
    }
    /// A closed outline with straight sides, metres.
    pub fn closed_polyline(&mut self, layer: &str, points: &[Point2]) -> &mut Self {
        let corners: Vec<DxfVertex> = points
            .iter()
            .map(|&point| DxfVertex { point, bulge: 0.0 })
            .collect();
        self.closed_outline(layer, &corners)
    }
    /// A closed outline with straight sides and arcs, metres.
    pub fn closed_outline(&mut self, layer: &str, corners: &[DxfVertex]) -> &mut Self {
        self.add(layer, Shape::Outline(corners.to_vec()))
    }
    /// A circle, metres.
    pub fn circle(&mut self, layer: &str, centre: Point2, radius: f64) -> &mut Self {
        self.add(layer, Shape::Circle { centre, radius })
    }
    /// A straight line, metres.
    pub fn line(&mut self, layer: &str, from: Point2, to: Point2) -> &mut Self {
        self.add(layer, Shape::Line { from, to })
    }
    /// One line of text from `at` to the right, with capitals `height` metres high.
    pub fn text(&mut self, layer: &str, at: Point2, height: f64, text: &str) -> &mut Self {
        self.add(
            layer,
            Shape::Text {
                at,
                height,
                text: text.to_owned(),
            },
        )
    }

    fn add(&mut self, layer: &str, shape: Shape) -> &mut Self {
        self.entities.push((layer_name(layer), shape));
        self
    }

    /// The drawing as a file.
    ///
    /// # Errors
    /// [`FormatError`] for a layer not declared, an outline with fewer than two corners with
    /// arcs or three without, or a number that is not finite.
    pub fn to_bytes(&self) -> Result<Vec<u8>, FormatError> {
        let mut writer = Writer {
            text: String::new(),
            per_metre: self.per_metre(),
        };
        self.header(&mut writer);
        self.tables(&mut writer);
        writer.section("BLOCKS");
        writer.group(0, "ENDSEC");
        writer.section("ENTITIES");
        for (layer, shape) in &self.entities {
            if !self.layers.iter().any(|(known, _)| known == layer) {
                return Err(FormatError::UnknownLayer {
                    layer: layer.clone(),
                });
            }
            writer.shape(layer, shape)?;
        }
        writer.group(0, "ENDSEC");
        writer.group(0, "EOF");
        Ok(writer.text.into_bytes())
    }

    fn per_metre(&self) -> f64 {
        match self.unit {
            DxfUnit::Millimetre => 1000.0,
            DxfUnit::Inch => 1.0 / 0.0254,
        }
    }

    fn header(&self, writer: &mut Writer) {
        let (units, measurement) = match self.unit {
            DxfUnit::Millimetre => ("4", "1"),
            DxfUnit::Inch => ("1", "0"),
        };
        writer.section("HEADER");
        writer.variable("$ACADVER", 1, "AC1009");
        writer.variable("$INSUNITS", 70, units);
        writer.variable("$MEASUREMENT", 70, measurement);
        writer.group(0, "ENDSEC");
    }

    fn tables(&self, writer: &mut Writer) {
        writer.section("TABLES");
        writer.table("LTYPE", 1);
        writer.group(0, "LTYPE");
        writer.group(2, "CONTINUOUS");
        writer.group(70, "0");
        writer.group(3, "Solid line");
        writer.group(72, "65");
        writer.group(73, "0");
        writer.group(40, "0.");
        writer.group(0, "ENDTAB");
        writer.table("LAYER", self.layers.len() + 1);
        let ground = ("0".to_owned(), DxfColour::Ink);
        for (name, colour) in std::iter::once(&ground).chain(&self.layers) {
            writer.group(0, "LAYER");
            writer.group(2, name);
            writer.group(70, "0");
            writer.group(62, &(*colour as u8).to_string());
            writer.group(6, "CONTINUOUS");
        }
        writer.group(0, "ENDTAB");
        writer.table("STYLE", 1);
        writer.group(0, "STYLE");
        writer.group(2, "STANDARD");
        writer.group(70, "0");
        writer.group(40, "0.");
        writer.group(41, "1.");
        writer.group(50, "0.");
        writer.group(71, "0");
        writer.group(42, "1.");
        writer.group(3, "txt");
        writer.group(4, "");
        writer.group(0, "ENDTAB");
        writer.group(0, "ENDSEC");
    }
}

/// Decimals written: a nanometre in millimetres, so that drawings lose nothing.
const DECIMALS: usize = 6;

struct Writer {
    text: String,
    per_metre: f64,
}

impl Writer {
    fn group(&mut self, code: u8, value: &str) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "{code:>3}\n{value}");
    }
    fn section(&mut self, name: &str) {
        self.group(0, "SECTION");
        self.group(2, name);
    }
    fn table(&mut self, name: &str, entries: usize) {
        self.group(0, "TABLE");
        self.group(2, name);
        self.group(70, &entries.to_string());
    }
    fn variable(&mut self, name: &str, code: u8, value: &str) {
        self.group(9, name);
        self.group(code, value);
    }
    fn number(&mut self, code: u8, value: f64) -> Result<(), FormatError> {
        let text = trimmed(value, DECIMALS, || "The drawing".into())?;
        let text = if text.ends_with('.') {
            text + "0"
        } else {
            text
        };
        self.group(code, &text);
        Ok(())
    }
    fn length(&mut self, code: u8, metres: f64) -> Result<(), FormatError> {
        self.number(code, metres * self.per_metre)
    }
    fn point(&mut self, point: Point2) -> Result<(), FormatError> {
        self.length(10, point.x)?;
        self.length(20, point.y)
    }
    fn entity(&mut self, kind: &str, layer: &str) {
        self.group(0, kind);
        self.group(8, layer);
    }

    fn shape(&mut self, layer: &str, shape: &Shape) -> Result<(), FormatError> {
        match shape {
            Shape::Outline(corners) => self.outline(layer, corners),
            Shape::Circle { centre, radius } => {
                self.entity("CIRCLE", layer);
                self.point(*centre)?;
                self.length(40, *radius)
            }
            Shape::Line { from, to } => {
                self.entity("LINE", layer);
                self.point(*from)?;
                self.length(11, to.x)?;
                self.length(21, to.y)
            }
            Shape::Text { at, height, text } => {
                self.entity("TEXT", layer);
                self.point(*at)?;
                self.length(40, *height)?;
                self.group(1, &plain_text(text));
                Ok(())
            }
        }
    }

    fn outline(&mut self, layer: &str, corners: &[DxfVertex]) -> Result<(), FormatError> {
        let fewest = if corners.iter().any(|corner| corner.bulge != 0.0) {
            2
        } else {
            3
        };
        if corners.len() < fewest {
            let place = format!("An outline on layer {layer:?}");
            return Err(FormatError::TooFewCorners {
                place,
                corners: corners.len(),
            });
        }
        self.entity("POLYLINE", layer);
        self.group(66, "1");
        self.group(10, "0.0");
        self.group(20, "0.0");
        self.group(30, "0.0");
        self.group(70, "1");
        for corner in corners {
            self.entity("VERTEX", layer);
            self.point(corner.point)?;
            if corner.bulge != 0.0 {
                self.bulge(corner.bulge)?;
            }
        }
        self.entity("SEQEND", layer);
        Ok(())
    }

    /// A bulge has no unit; its digits decide how well the arc closes, so it has more of them.
    fn bulge(&mut self, bulge: f64) -> Result<(), FormatError> {
        let text = trimmed(bulge, 12, || "An arc of the drawing".into())?;
        self.group(42, &(text + "0"));
        Ok(())
    }
}

/// Release 12 allows capitals, digits and `$ - _`, at most 31 of them.
fn layer_name(name: &str) -> String {
    let allowed = |c: char| c.is_ascii_alphanumeric() || matches!(c, '$' | '-' | '_');
    let name: String = name
        .chars()
        .take(31)
        .map(|c| {
            if allowed(c) {
                c.to_ascii_uppercase()
            } else {
                '_'
            }
        })
        .collect();
    if name.is_empty() {
        "_".to_owned()
    } else {
        name
    }
}

/// One line of ASCII; other characters as `\U+` and their number in four hexadecimal digits.
fn plain_text(text: &str) -> String {
    let mut plain = String::new();
    for unit in text.encode_utf16() {
        match u8::try_from(unit) {
            Ok(byte @ b' '..=b'~') => plain.push(char::from(byte)),
            Ok(0..=31) => plain.push(' '),
            _ => {
                let _ = write!(plain, "\\U+{unit:04X}");
            }
        }
    }
    plain
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_and_layers_are_said() {
        let mut drawing = DxfDrawing::new(DxfUnit::Inch);
        drawing.layer("cut out", DxfColour::Red).line(
            "cut out",
            Point2::new(0.0, 0.0),
            Point2::new(0.0254, 0.0127),
        );
        let text = String::from_utf8(drawing.to_bytes().unwrap()).unwrap();
        assert!(text.contains("$INSUNITS\n 70\n1\n"));
        assert!(text.contains("  0\nLINE\n  8\nCUT_OUT\n 10\n0.0\n 20\n0.0\n 11\n1.0\n 21\n0.5\n"));
    }

    #[test]
    fn bad_input_is_refused() {
        let mut drawing = DxfDrawing::new(DxfUnit::Millimetre);
        drawing.circle("cut", Point2::new(0.0, 0.0), 1.0);
        assert_eq!(
            drawing.to_bytes(),
            Err(FormatError::UnknownLayer {
                layer: "CUT".into()
            })
        );
        drawing
            .layer("cut", DxfColour::Ink)
            .closed_polyline("cut", &[Point2::new(0.0, 0.0)]);
        assert!(matches!(
            drawing.to_bytes(),
            Err(FormatError::TooFewCorners { corners: 1, .. })
        ));
        let mut drawing = DxfDrawing::new(DxfUnit::Millimetre);
        drawing
            .layer("cut", DxfColour::Ink)
            .circle("cut", Point2::new(f64::NAN, 0.0), 1.0);
        assert!(matches!(
            drawing.to_bytes(),
            Err(FormatError::Number { .. })
        ));
    }

    #[test]
    fn text_is_one_ascii_line() {
        assert_eq!(plain_text("Ø 60\nlid"), "\\U+00D8 60 lid");
    }
}
