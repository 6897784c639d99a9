//! Why a body is not laid out as a tank.

use crate::finding::{Finding, Grade};
use crate::shape::{ShapeFault, WholeFault};
use brimful_job::Place;

/// Why a body is not laid out as a tank.
#[derive(Clone, Debug, PartialEq)]
pub enum NotLaidOut {
    /// Shapes that cannot be made.
    Faults(Vec<ShapeFault>),
    /// A finding that stops the build.
    Stopped(Box<Finding>),
}

impl NotLaidOut {
    /// Of a stage after the panels.
    pub fn of_whole(fault: WholeFault) -> Self {
        Self::Faults(vec![ShapeFault::new(&Place::default(), fault)])
    }

    /// Whether any finding stops the build.
    ///
    /// # Errors
    /// The first that does.
    pub fn stopped(findings: &[Finding]) -> Result<(), Self> {
        let stop = findings.iter().find(|it| it.grade == Grade::Stop);
        stop.map_or(Ok(()), |stop| Err(Self::Stopped(Box::new(stop.clone()))))
    }
}

impl From<Vec<ShapeFault>> for NotLaidOut {
    fn from(faults: Vec<ShapeFault>) -> Self {
        Self::Faults(faults)
    }
}
