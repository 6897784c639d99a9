//! Findings of one cause, taken together: ten seams over their limit are one thing to be cured.

use super::kind::{Kind, PracticeKind, QuickKind, SloshKind, StrengthKind};
use super::{Finding, Grade};

/// Findings of one cause and grade, worst first.
#[derive(Clone, Debug, PartialEq)]
pub struct Cause<'a> {
    /// How much they weigh.
    pub grade: Grade,
    /// The worst of them.
    pub worst: &'a Finding,
    /// The others, worst first.
    pub others: Vec<&'a Finding>,
    /// The places of all of them in the list that they were taken from, worst first.
    pub places: Vec<usize>,
}

impl Cause<'_> {
    /// How far the worst is past its limit, as a factor; 1 where that is no number.
    pub fn severity(&self) -> f64 {
        severity(self.worst)
    }
}

/// Findings in the order of their causes: by grade, the worst cause first, and the worst of each.
pub fn worst_first(findings: &[Finding]) -> Vec<Finding> {
    let causes = causes(findings);
    let places = causes.iter().flat_map(|cause| &cause.places);
    places.map(|&place| findings[place].clone()).collect()
}

/// The causes behind some findings: by grade, and within a grade the one furthest past its limit first.
pub fn causes(findings: &[Finding]) -> Vec<Cause<'_>> {
    let mut groups: Vec<Vec<(usize, &Finding)>> = Vec::new();
    for (place, finding) in findings.iter().enumerate() {
        let alike = |group: &&mut Vec<(usize, &Finding)>| {
            let (_, first) = group[0];
            first.grade == finding.grade && first.kind.has_cause_of(&finding.kind)
        };
        match groups.iter_mut().find(alike) {
            Some(group) => group.push((place, finding)),
            None => groups.push(vec![(place, finding)]),
        }
    }
    let mut causes: Vec<Cause<'_>> = groups.into_iter().filter_map(cause).collect();
    let by_severity = |a: &Cause<'_>, b: &Cause<'_>| b.severity().total_cmp(&a.severity());
    causes.sort_by(|a, b| a.grade.cmp(&b.grade).then(by_severity(a, b)));
    causes
}

fn cause(mut members: Vec<(usize, &Finding)>) -> Option<Cause<'_>> {
    members.sort_by(|(_, a), (_, b)| severity(b).total_cmp(&severity(a)));
    let (places, members): (Vec<usize>, Vec<&Finding>) = members.into_iter().unzip();
    let (worst, others) = members.split_first()?;
    Some(Cause {
        grade: worst.grade,
        worst,
        others: others.to_vec(),
        places,
    })
}

/// How far a finding is past its limit, as a factor: no answer, or none that means anything, is past
/// every limit. Some limits are undershot, so that either way counts. 1 where there is no number, or
/// where none of a thing is allowed: how many there are says nothing of how bad it is.
fn severity(finding: &Finding) -> f64 {
    if finding.kind.is_past_every_limit() {
        return f64::INFINITY;
    }
    let figures = finding.figures.as_ref();
    let Some(figures) = figures.filter(|it| it.limit.value() != 0.0) else {
        return 1.0;
    };
    let ratio = figures.figure.value() / figures.limit.value();
    let past = ratio.max(ratio.recip());
    if past.is_nan() { f64::INFINITY } else { past }
}

impl Kind {
    /// Whether nothing can be computed of it.
    fn is_past_every_limit(&self) -> bool {
        matches!(
            self,
            Self::Strength(
                StrengthKind::NoAnswer { .. }
                    | StrengthKind::NoModel(_)
                    | StrengthKind::Tips { .. }
                    | StrengthKind::NotBorne
            )
        )
    }

    /// Whether both come from one cause, so that one cure is for both: the same kind, whatever the
    /// places and quantities.
    pub fn has_cause_of(&self, other: &Self) -> bool {
        use std::mem::discriminant as of;
        match (self, other) {
            (Self::Space(a), Self::Space(b)) => of(a) == of(b),
            (Self::Body(a), Self::Body(b)) => of(a) == of(b),
            (Self::Panels(a), Self::Panels(b)) => of(a) == of(b),
            (Self::Capacity(a), Self::Capacity(b)) => of(a) == of(b),
            (Self::Weld(a), Self::Weld(b)) => of(a) == of(b),
            // Each reason for no answer has a cure of its own.
            (
                Self::Quick(QuickKind::PanelNotCovered(a)),
                Self::Quick(QuickKind::PanelNotCovered(b)),
            ) => of(a) == of(b),
            (
                Self::Strength(StrengthKind::NoAnswer { fault: a, .. }),
                Self::Strength(StrengthKind::NoAnswer { fault: b, .. }),
            ) => of(a) == of(b),
            (
                Self::Quick(QuickKind::CaseNotCovered(a)),
                Self::Quick(QuickKind::CaseNotCovered(b)),
            )
            | (
                Self::Strength(StrengthKind::CaseNotCovered(a)),
                Self::Strength(StrengthKind::CaseNotCovered(b)),
            ) => a.has_cause_of(b),
            (
                Self::Strength(StrengthKind::NoModel(a)),
                Self::Strength(StrengthKind::NoModel(b)),
            ) => of(a) == of(b),
            (
                Self::Practice(PracticeKind::Filling(a)),
                Self::Practice(PracticeKind::Filling(b)),
            ) => of(a) == of(b),
            (Self::Quick(a), Self::Quick(b)) => of(a) == of(b),
            (Self::Strength(a), Self::Strength(b)) => of(a) == of(b),
            (Self::Room(a), Self::Room(b)) => of(a) == of(b),
            (Self::WayIn(a), Self::WayIn(b)) => of(a) == of(b),
            (Self::Cut(a), Self::Cut(b)) => of(a) == of(b),
            (
                Self::Slosh(SloshKind::InBand { motion: a, .. }),
                Self::Slosh(SloshKind::InBand { motion: b, .. }),
            ) => a == b,
            (Self::Practice(a), Self::Practice(b)) => of(a) == of(b),
            (Self::Remedy(a), Self::Remedy(b)) => of(a) == of(b),
            (Self::Fit(a), Self::Fit(b)) => of(a) == of(b),
            (Self::Plan(a), Self::Plan(b)) => of(a) == of(b),
            _ => false,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::case::{CaseId, LoadKind};
    use crate::finding::kind::{PlanKind, Uncovered};
    use crate::finding::{Part, Quantity, Subject};
    use crate::name::PanelName;
    use brimful_geom::vector::Point3;
    use brimful_units::Pressure;

    #[test]
    fn panels_that_are_not_covered_for_other_reasons_are_other_causes() {
        let panel = |reason| {
            let subject = Subject::Part(Part::QuickCheck);
            Finding::of(Grade::Stop, subject, QuickKind::PanelNotCovered(reason))
        };
        let findings = [
            panel(Uncovered::OnFeet),
            panel(Uncovered::Parted),
            panel(Uncovered::OnFeet),
        ];
        assert_eq!(causes(&findings).len(), 2);
    }

    #[test]
    fn what_has_no_answer_comes_before_any_figure_and_a_count_after_it() {
        let part = || Subject::Part(Part::Strength);
        let case = CaseId::of(LoadKind::Rest);
        let at = Point3::ORIGIN;
        let count = |finding: Finding| finding.figures(Quantity::Count(9), Quantity::Count(0));
        let stress = |mpa| Quantity::Stress(Pressure::from_mpa(mpa));
        let findings = [
            count(Finding::of(Grade::Stop, part(), PlanKind::Draft)),
            Finding::of(
                Grade::Stop,
                part(),
                StrengthKind::WeldOverLimit { case, at },
            )
            .figures(stress(9.0), stress(2.0)),
            Finding::of(Grade::Stop, part(), StrengthKind::NotBorne),
        ];
        let order: Vec<usize> = causes(&findings).iter().map(|it| it.places[0]).collect();
        assert_eq!(order, [2, 1, 0]);
    }

    #[test]
    fn seams_over_their_limit_are_one_cause_worst_first() {
        let seam = |mark: &str, mpa: f64| {
            let inner = |name: &str| PanelName::Inner {
                name: name.to_owned(),
                number: None,
            };
            let subject = Subject::Seam(mark.to_owned(), [inner("a"), inner("b")]);
            let kind = StrengthKind::WeldOverLimit {
                case: CaseId::of(LoadKind::Rest),
                at: Point3::new(mpa, 0.0, 0.0),
            };
            let stress = |mpa| Quantity::Stress(Pressure::from_mpa(mpa));
            Finding::of(Grade::Stop, subject, kind).figures(stress(mpa), stress(2.0))
        };
        let draft = Finding::of(Grade::Stop, Subject::Part(Part::Strength), PlanKind::Draft);
        let findings = [draft, seam("S1", 2.2), seam("S2", 4.0), seam("S3", 3.0)];
        let causes = causes(&findings);
        assert_eq!(causes.len(), 2);
        assert_eq!((causes[0].severity(), causes[1].severity()), (2.0, 1.0));
        assert_eq!(causes[0].others.len(), 2);
        assert!(std::ptr::eq(causes[0].worst, &findings[2]));
        assert!(std::ptr::eq(causes[0].others[1], &findings[1]));
        assert_eq!(causes[0].places, [2, 3, 1]);
    }
}
