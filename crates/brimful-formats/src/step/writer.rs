//! Entity instances of ISO 10303-21, numbered in the order written.

use std::fmt::{self, Write};

use brimful_geom::vector::{Point3, Vec3};

use crate::decimal::trimmed;
use crate::error::FormatError;

/// The number of an entity instance.
#[derive(Clone, Copy, Debug)]
pub(super) struct Id(usize);

impl fmt::Display for Id {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "#{}", self.0)
    }
}

#[derive(Default)]
pub(super) struct Writer {
    data: String,
    count: usize,
}

/// Decimals of millimetres: a thousandth of a nanometre, so that what was flat stays flat.
const LENGTH_DECIMALS: usize = 9;

/// Decimals of direction cosines.
const DIRECTION_DECIMALS: usize = 15;

const MILLIMETRES: f64 = 1000.0;

impl Writer {
    pub fn add(&mut self, entity: String) -> Id {
        self.count += 1;
        // Writing to a string cannot fail.
        let _ = writeln!(self.data, "#{}={entity};", self.count);
        Id(self.count)
    }
    pub fn data(&self) -> &str {
        &self.data
    }
    pub fn point(&mut self, point: Point3, place: impl Fn() -> String) -> Result<Id, FormatError> {
        let [x, y, z] = point.to_array();
        let (x, y, z) = (length(x, &place)?, length(y, &place)?, length(z, &place)?);
        Ok(self.add(format!("CARTESIAN_POINT('',({x},{y},{z}))")))
    }
    /// `direction` must have a length.
    pub fn direction(
        &mut self,
        direction: Vec3,
        place: impl Fn() -> String,
    ) -> Result<Id, FormatError> {
        let [x, y, z] = direction
            .unit()
            .unwrap_or(Vec3::ZERO)
            .to_array()
            .map(|part| {
                // Components that vanish beside the others are noise.
                if part.abs() < 1e-15 { 0.0 } else { part }
            });
        let part = |value: f64| trimmed(value, DIRECTION_DECIMALS, &place);
        let (x, y, z) = (part(x)?, part(y)?, part(z)?);
        Ok(self.add(format!("DIRECTION('',({x},{y},{z}))")))
    }
    pub fn placement(
        &mut self,
        origin: Point3,
        axis: Vec3,
        reference: Vec3,
        place: impl Fn() -> String,
    ) -> Result<Id, FormatError> {
        let origin = self.point(origin, &place)?;
        let axis = self.direction(axis, &place)?;
        let reference = self.direction(reference, &place)?;
        Ok(self.add(format!(
            "AXIS2_PLACEMENT_3D('',{origin},{axis},{reference})"
        )))
    }
}

/// Metres as millimetres.
pub(super) fn length(metres: f64, place: impl Fn() -> String) -> Result<String, FormatError> {
    trimmed(metres * MILLIMETRES, LENGTH_DECIMALS, place)
}

/// A string of ISO 10303-21: quotes and backslashes doubled, other characters than printable
/// ASCII as `\X2\` and their UTF-16 in hexadecimal.
pub(super) fn text(plain: &str) -> String {
    let mut quoted = String::from("'");
    for c in plain.chars() {
        match c {
            '\'' => quoted.push_str("''"),
            '\\' => quoted.push_str("\\\\"),
            ' '..='~' => quoted.push(c),
            _ => {
                quoted.push_str("\\X2\\");
                for unit in c.encode_utf16(&mut [0; 2]) {
                    let _ = write!(quoted, "{unit:04X}");
                }
                quoted.push_str("\\X0\\");
            }
        }
    }
    quoted + "'"
}
