//! What chocks leave no room for.

use brimful_job::Job;
use brimful_panels::body::Body;
use brimful_panels::finding::kind::PracticeKind;
use brimful_panels::finding::{Finding, Grade, Part, Subject};
use brimful_panels::growth::{Growth, are_opposite};
use brimful_panels::name::PanelName;
use brimful_panels::panels::chocked_faces;
use brimful_units::Length;

/// Chocks against two opposite walls, between which the tank grows: the check takes them not to squeeze it.
pub fn grows_between_chocks(job: &Job, body: &Body) -> Vec<Finding> {
    // Panels are not laid out where a chock has no wall.
    let chocked = chocked_faces(job, body).unwrap_or_default();
    let Some([_, strain]) = Growth::of(job).strain else {
        return Vec::new();
    };
    let pairs = chocked.iter().enumerate().flat_map(|(number, one)| {
        let others = chocked[number + 1..].iter();
        others.map(move |other| [*one, *other])
    });
    let opposite = pairs.filter(|pair| are_opposite(&body.solid, *pair));
    let finding = |pair: [usize; 2]| {
        let corner = body.solid.vertices[body.solid.faces[pair[1]].loops[0][0]];
        let apart = body.solid.faces[pair[0]].plane.distance(corner).abs();
        let kind = PracticeKind::GrowsBetweenChocks {
            between: pair.map(|face| PanelName::Face(body.faces[face].name)),
            growth: Length::from_m(strain * apart),
        };
        Finding::of(Grade::Mend, Subject::Part(Part::Support), kind)
    };
    opposite.map(finding).collect()
}
