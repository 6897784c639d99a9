//! What JSON calls the kinds of a job and a plan: in no language, as the keys beside them.

use brimful_job::{
    Axis, Capacity, Cutting, Duty, Extruder, FilledTo, InnerKind, Nozzle, Process, RodForm, Service,
};
use brimful_panels::finding::Grade;
use brimful_panels::panel::Role;
use brimful_panels::seam::Joint;
use brimful_strength::quick::Governs;
use brimful_units::UnitSystem;

macro_rules! words {
    ($($name:ident($kind:ty) { $($case:pat => $word:literal),+ $(,)? })+) => {$(
        pub(crate) fn $name(kind: $kind) -> &'static str {
            match kind { $($case => $word),+ }
        }
    )+};
}

words! {
    grade(Grade) { Grade::Stop => "stop", Grade::Mend => "mend", Grade::Note => "note" }
    duty(Duty) { Duty::Standing => "standing", Duty::Road => "road", Duty::Afloat => "afloat" }
    units(UnitSystem) { UnitSystem::Metric => "metric", UnitSystem::Inch => "inch" }
    capacity(Capacity) {
        Capacity::Brim => "brim", Capacity::Rated => "rated", Capacity::Usable => "usable",
    }
    filled_to(FilledTo) { FilledTo::Brim => "brim", FilledTo::Rated => "rated" }
    rod_form(RodForm) { RodForm::Round => "round", RodForm::Triangular => "triangular" }
    cutting(Cutting) { Cutting::Saw => "saw", Cutting::Router => "router" }
    process(Process) { Process::HotGas => "hot gas", Process::Extrusion => "extrusion" }
    extruder(Extruder) { Extruder::Small => "small", Extruder::Medium => "medium", Extruder::Large => "large" }
    nozzle(Nozzle) { Nozzle::Speed => "speed", Nozzle::Round => "round" }
    axis(Axis) { Axis::X => "x", Axis::Y => "y", Axis::Z => "z" }
    inner(InnerKind) { InnerKind::Baffle => "baffle", InnerKind::Divider => "divider", InnerKind::Stay => "stay" }
    service(Service) {
        Service::Fill => "fill",
        Service::Vent => "vent",
        Service::Draw => "draw",
        Service::Drain => "drain",
        Service::Sender => "sender",
        Service::Hatch => "hatch",
        Service::Overflow => "overflow",
    }
    role(Role) {
        Role::Floor => "floor",
        Role::Lid => "lid",
        Role::Wall => "wall",
        Role::Baffle => "baffle",
        Role::Divider => "divider",
        Role::Stay => "stay",
        Role::Rib => "rib",
    }
    governs(Governs) { Governs::Sheet => "sheet", Governs::Weld => "weld" }
    joint(Joint) {
        Joint::OpenCorner => "open corner",
        Joint::ThroughAndButt { .. } => "through and butt",
        Joint::Mitred => "mitred",
        Joint::Tee => "tee",
        Joint::SlotThrough => "slot-through",
        Joint::Butt => "butt",
    }
}
