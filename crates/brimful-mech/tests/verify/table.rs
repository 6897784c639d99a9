//! A published table as it lies in `verify/shell`: what it is, then a line a figure.
//!
//! Lines `# key: text` come first, then a line of headings, then
//! `case,quantity,reference,share,order,standing,stated`.

/// A table of published figures.
pub struct Table {
    pub title: String,
    pub source: String,
    /// Whether the figures were seen in their source, written from memory or computed.
    pub flag: String,
    pub meshes: String,
    /// How many times finer each mesh is than the one before.
    pub ratio: f64,
    /// Why the tolerances are what they are.
    pub reason: String,
    pub notes: Vec<String>,
    pub rows: Vec<Row>,
}

/// A published figure and what is asked of ours.
pub struct Row {
    pub case: String,
    pub quantity: String,
    /// As printed in the source.
    pub printed: String,
    pub reference: f64,
    /// Half a unit of the last printed digit.
    pub rounding: f64,
    /// How far ours on the finest mesh may be off, as a share; the rounding comes on top.
    pub share: f64,
    /// Least order of convergence, where one is asked for.
    pub order: Option<f64>,
    pub standing: Standing,
}

/// What the figure is to us.
#[derive(Clone, Copy, PartialEq)]
pub enum Standing {
    /// To be met.
    Agrees,
    /// Not met, because the engine does not cover it; the figure that it comes to.
    Outside(f64),
}

impl Table {
    /// Reads a table; a line that cannot be meant stops the test.
    pub fn read(text: &str) -> Self {
        let (heads, lines): (Vec<&str>, Vec<&str>) =
            text.lines().partition(|line| line.starts_with('#'));
        let all = |key: &str| -> Vec<String> {
            let start = format!("# {key}: ");
            let found = heads.iter().filter_map(|h| h.strip_prefix(&start));
            found.map(str::to_owned).collect()
        };
        let one = |key: &str| match &all(key)[..] {
            [text] => text.clone(),
            other => panic!("{} lines of {key}", other.len()),
        };
        Self {
            title: one("title"),
            source: one("source"),
            flag: one("flag"),
            meshes: one("meshes"),
            ratio: number(&one("ratio")),
            reason: one("reason"),
            notes: all("note"),
            rows: lines.iter().skip(1).map(|line| Row::read(line)).collect(),
        }
    }
}

impl Row {
    fn read(line: &str) -> Self {
        let cells: Vec<&str> = line.split(',').collect();
        let [case, quantity, printed, share, order, standing, stated] = cells[..] else {
            panic!("seven cells wanted: {line}");
        };
        Self {
            case: case.to_owned(),
            quantity: quantity.to_owned(),
            printed: printed.to_owned(),
            reference: number(printed),
            rounding: half_a_unit(printed),
            share: number(share),
            order: (!order.is_empty()).then(|| number(order)),
            standing: match standing {
                "" => Standing::Agrees,
                "outside" => Standing::Outside(number(stated)),
                other => panic!("no standing is called {other}"),
            },
        }
    }
}

/// Half a unit of the last digit of a printed number.
pub fn half_a_unit(printed: &str) -> f64 {
    let (digits, power) = printed.split_once('e').unwrap_or((printed, "0"));
    let places = digits.split_once('.').map_or(0, |(_, after)| after.len());
    0.5 * 10_f64.powi(number(power) as i32 - places as i32)
}

fn number(text: &str) -> f64 {
    match text.parse() {
        Ok(value) => value,
        Err(_) => panic!("not a number: {text}"),
    }
}

/// Whether a line of a page is the same as another, figures to a unit of their last digit, or to two where rounding falls
/// the other way on another machine.
pub fn same(old: &str, new: &str) -> bool {
    let (old, new): (Vec<&str>, Vec<&str>) = (
        old.split_whitespace().collect(),
        new.split_whitespace().collect(),
    );
    old.len() == new.len() && old.iter().zip(new).all(|(old, new)| same_word(old, new))
}

/// Last digits by which a figure may differ from the one on the page.
const LAST_DIGITS: f64 = 2.0;

fn same_word(old: &str, new: &str) -> bool {
    match (old.parse::<f64>(), new.parse::<f64>()) {
        (Ok(a), Ok(b)) => (a - b).abs() <= 2.0 * LAST_DIGITS * half_a_unit(old) * (1.0 + 1e-9),
        _ => old == new,
    }
}
