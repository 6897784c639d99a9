//! A sheet of drawing paper, millimetres, y down; lines after ISO 128-2 (continuous wide for
//! what is seen, narrow for dimensions, dashed for what is hidden, long-dashed dotted for
//! centres).

use brimful_formats::pdf::SANS;
use brimful_text::Text;
use std::fmt::Write;

/// A place on the paper, millimetres from its upper-left corner.
pub type Spot = (f64, f64);

/// Height of the letters of ordinary drawing text: 9 point, in millimetres.
pub const TEXT: f64 = 3.2;

/// No letter of the drawings' type is wider on average than this share of its size.
const LETTER_WIDTH: f64 = 0.56;

/// A kind of line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Line {
    /// Edges that are seen.
    Seen,
    /// Edges that are seen in a picture that is not measured from.
    Fine,
    /// Dimensions, leaders, hatching.
    Thin,
    /// Edges that are hidden.
    Hidden,
    /// Centre lines.
    Centre,
    /// A run that is laid, in a picture that is not measured from.
    Run,
}

/// How text stands at its place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Anchor {
    /// Begins there.
    Start,
    /// Is centred there.
    Middle,
    /// Ends there.
    End,
}

/// A drawing being made.
pub struct Canvas {
    width: f64,
    height: f64,
    ink: String,
}

/// A finished drawing.
pub struct Drawing {
    /// Width on paper, millimetres.
    pub width: f64,
    /// The file.
    pub svg: Vec<u8>,
}

impl Canvas {
    /// Empty paper.
    pub fn new(width: f64, height: f64) -> Self {
        Self {
            width,
            height,
            ink: String::new(),
        }
    }

    /// A straight line.
    pub fn line(&mut self, from: Spot, to: Spot, line: Line) {
        self.put(format_args!(
            "<path d=\"M{}L{}\" {}/>",
            spot(from),
            spot(to),
            pen(line)
        ));
    }

    /// Closed outlines filled with a grey (0 black to 1 white) or nothing; holes are left free.
    pub fn outlines(&mut self, rings: &[Vec<Spot>], grey: Option<f64>, line: Option<Line>) {
        let mut way = String::new();
        for ring in rings {
            for (i, &corner) in ring.iter().enumerate() {
                let _ = write!(way, "{}{}", if i == 0 { 'M' } else { 'L' }, spot(corner));
            }
            way.push('Z');
        }
        let pen = line.map_or(String::new(), pen);
        self.put(format_args!(
            "<path d=\"{way}\" fill-rule=\"evenodd\" {} {pen}/>",
            fill(grey)
        ));
    }

    /// A filled shape whose rim is drawn in its own grey, so that neighbours leave no white seam.
    pub fn tile(&mut self, corners: &[Spot], grey: f64) {
        self.patches([corners], &tone(grey));
    }

    /// Filled shapes in one shade from pale (0) to dark (1), their rims in the same.
    pub fn tint<'a>(&mut self, shapes: impl IntoIterator<Item = &'a [Spot]>, share: f64) {
        self.patches(shapes, &shade(share));
    }

    fn patches<'a>(&mut self, shapes: impl IntoIterator<Item = &'a [Spot]>, tone: &str) {
        let mut way = String::new();
        for corners in shapes {
            for (i, &corner) in corners.iter().enumerate() {
                let _ = write!(way, "{}{}", if i == 0 { 'M' } else { 'L' }, spot(corner));
            }
            way.push('Z');
        }
        self.put(format_args!(
            "<path d=\"{way}\" fill=\"{tone}\" stroke=\"{tone}\" stroke-width=\"0.1\"/>"
        ));
    }

    /// A circle.
    pub fn circle(&mut self, centre: Spot, radius: f64, grey: Option<f64>, line: Line) {
        self.put(format_args!(
            "<circle cx=\"{:.2}\" cy=\"{:.2}\" r=\"{radius:.2}\" {} {}/>",
            centre.0,
            centre.1,
            fill(grey),
            pen(line)
        ));
    }

    /// One line of text whose middle height is at `at`, turned by `turn` degrees (90 reads from
    /// the right-hand side).
    pub fn text(&mut self, at: Spot, anchor: Anchor, turn: f64, size: f64, text: &Text) {
        self.letters(at, anchor, turn, size, text.as_str());
    }

    fn letters(&mut self, at: Spot, anchor: Anchor, turn: f64, size: f64, text: &str) {
        let anchor = match anchor {
            Anchor::Start => "start",
            Anchor::Middle => "middle",
            Anchor::End => "end",
        };
        let (x, y) = at;
        // Capitals are about 0.7 of the size high, so their middle is 0.35 above the foot.
        let drop = size * 0.35;
        self.put(format_args!(
            "<text transform=\"translate({x:.2} {y:.2}) rotate({:.1})\" y=\"{drop:.2}\" font-family=\"{SANS}\" font-size=\"{size:.2}\" text-anchor=\"{anchor}\">{}</text>",
            -turn,
            escaped(text)
        ));
    }

    /// A number, centred: in no language.
    pub fn number(&mut self, at: Spot, size: f64, number: usize) {
        self.letters(at, Anchor::Middle, 0.0, size, &number.to_string());
    }

    /// Text on a white ground, centred.
    pub fn label(&mut self, at: Spot, size: f64, text: &Text) {
        let (half_width, half_height) = (text_width(text.as_str(), size) / 2.0 + 0.4, size * 0.55);
        let (x, y) = at;
        let ground = vec![
            (x - half_width, y - half_height),
            (x + half_width, y - half_height),
            (x + half_width, y + half_height),
            (x - half_width, y + half_height),
        ];
        self.outlines(&[ground], Some(1.0), None);
        self.text(at, Anchor::Middle, 0.0, size, text);
    }

    /// A mark or a number in a ring: in no language.
    pub fn balloon(&mut self, at: Spot, mark: &str) {
        self.circle(at, balloon_radius(mark), Some(1.0), Line::Thin);
        self.letters(at, Anchor::Middle, 0.0, TEXT, mark);
    }

    /// The finished drawing.
    pub fn finish(self) -> Drawing {
        let (width, height) = (self.width, self.height);
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.2}mm\" height=\"{height:.2}mm\" viewBox=\"0 0 {width:.2} {height:.2}\" stroke-linejoin=\"round\" stroke-linecap=\"butt\">\n{}</svg>\n",
            self.ink
        );
        Drawing {
            width,
            svg: svg.into_bytes(),
        }
    }

    fn put(&mut self, ink: std::fmt::Arguments<'_>) {
        // Writing to a string cannot fail.
        let _ = writeln!(self.ink, "{ink}");
    }
}

/// The most room that a line of text can take, millimetres.
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().count() as f64 * size * LETTER_WIDTH
}

/// Radius of the ring round a mark.
pub fn balloon_radius(mark: &str) -> f64 {
    (text_width(mark, TEXT) / 2.0 + 0.7).max(3.0)
}

fn pen(line: Line) -> String {
    let (width, dashes) = match line {
        Line::Seen => (0.5, ""),
        Line::Fine => (0.25, ""),
        Line::Thin => (0.18, ""),
        Line::Hidden => (0.25, "2.4 0.8"),
        Line::Centre => (0.18, "5 0.8 0.4 0.8"),
        Line::Run => (1.1, ""),
    };
    let dashes = if dashes.is_empty() {
        String::new()
    } else {
        format!(" stroke-dasharray=\"{dashes}\"")
    };
    format!("stroke=\"black\" stroke-width=\"{width}\"{dashes}")
}

fn fill(grey: Option<f64>) -> String {
    grey.map_or("fill=\"none\"".into(), |grey| {
        format!("fill=\"{}\"", tone(grey))
    })
}

fn tone(grey: f64) -> String {
    let level = (grey.clamp(0.0, 1.0) * 255.0).round() as u8;
    format!("#{level:02x}{level:02x}{level:02x}")
}

/// From pale straw to dark plum: darker all the way, so that a grey print tells the same.
fn shade(share: f64) -> String {
    let (pale, dark) = ([250.0, 240.0, 205.0], [88.0, 24.0, 69.0]);
    let level = |i: usize| {
        let mixed: f64 = pale[i] + (dark[i] - pale[i]) * share.clamp(0.0, 1.0);
        mixed.round() as u8
    };
    format!("#{:02x}{:02x}{:02x}", level(0), level(1), level(2))
}

fn spot((x, y): Spot) -> String {
    format!("{x:.2} {y:.2}")
}

fn escaped(text: &str) -> String {
    text.replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;")
}
