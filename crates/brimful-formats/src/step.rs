//! Solids as STEP: ISO 10303-21 text, schema AP214 (ISO 10303-214, `AUTOMOTIVE_DESIGN`).
//!
//! Input is in metres, the file in millimetres and says so. Each solid is a product of its own
//! with one `MANIFOLD_SOLID_BREP`, all of them placed in one assembly. Faces are flat, with any
//! number of inner loops; round holes straight through a plate are true cylinders. Every edge is
//! written once and shared by its two faces. The time in the file's head is fixed, so that the
//! same solids give the same bytes.

mod brep;
mod solid;
mod writer;

pub use solid::{RoundHole, StepFace, StepSolid};

use brimful_geom::vector::{Point3, Vec3};

use crate::error::FormatError;
use writer::{Id, Writer, text};

/// The solids as one assembly called `name`.
///
/// # Errors
/// [`FormatError`] for a number that is not finite, a solid that its faces do not close, a face
/// without extent, or a round hole that does not run straight between two faces across it.
pub fn to_step(name: &str, solids: &[StepSolid]) -> Result<Vec<u8>, FormatError> {
    let mut writer = Writer::default();
    let context = Context::write(&mut writer);
    let placement = writer.placement(Point3::ORIGIN, Vec3::Z, Vec3::X, || "The assembly".into())?;
    let shape = writer.add(format!(
        "SHAPE_REPRESENTATION({},({placement}),{})",
        text(name),
        context.geometry
    ));
    let assembly = product(&mut writer, &context, name, shape);
    for (at, solid) in solids.iter().enumerate() {
        let brep = brep::write(&mut writer, solid)?;
        let name = text(&solid.name);
        let shape = writer.add(format!(
            "ADVANCED_BREP_SHAPE_REPRESENTATION({name},({placement},{brep}),{})",
            context.geometry
        ));
        let part = product(&mut writer, &context, &solid.name, shape);
        place(
            &mut writer,
            &assembly,
            &part,
            placement,
            &format!("{},{name}", text(&(at + 1).to_string())),
        );
    }
    Ok(file(name, &writer))
}

/// What all products refer to.
struct Context {
    application: Id,
    design: Id,
    geometry: Id,
}

impl Context {
    fn write(writer: &mut Writer) -> Self {
        let application = writer.add(
            "APPLICATION_CONTEXT('core data for automotive mechanical design processes')".into(),
        );
        writer.add(format!(
            "APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,{application})"
        ));
        let design = writer.add(format!(
            "PRODUCT_DEFINITION_CONTEXT('part definition',{application},'design')"
        ));
        let length = writer.add("(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))".into());
        let angle = writer.add("(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))".into());
        let solid_angle =
            writer.add("(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())".into());
        let uncertainty = writer.add(format!(
            "UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE({UNCERTAINTY_MM}),{length},'distance_accuracy_value','')"
        ));
        let geometry = writer.add(format!(
            "(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT(({uncertainty}))\
             GLOBAL_UNIT_ASSIGNED_CONTEXT(({length},{angle},{solid_angle}))REPRESENTATION_CONTEXT('',''))"
        ));
        Self {
            application,
            design,
            geometry,
        }
    }
}

/// How far apart points may lie that a reader should take for one: a tenth of a micrometre, far
/// above the rounding of corners worked out in doubles, far below any gap between parts.
const UNCERTAINTY_MM: &str = "1.E-4";

struct Product {
    definition: Id,
    shape: Id,
}

fn product(writer: &mut Writer, context: &Context, name: &str, shape: Id) -> Product {
    let name = text(name);
    let frame = writer.add(format!(
        "PRODUCT_CONTEXT('',{},'mechanical')",
        context.application
    ));
    let product = writer.add(format!("PRODUCT({name},{name},'',({frame}))"));
    writer.add(format!(
        "PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,({product}))"
    ));
    let formation = writer.add(format!("PRODUCT_DEFINITION_FORMATION('','',{product})"));
    let definition = writer.add(format!(
        "PRODUCT_DEFINITION('design','',{formation},{})",
        context.design
    ));
    let definition_shape = writer.add(format!("PRODUCT_DEFINITION_SHAPE('','',{definition})"));
    writer.add(format!(
        "SHAPE_DEFINITION_REPRESENTATION({definition_shape},{shape})"
    ));
    Product { definition, shape }
}

/// Puts a part into the assembly where it already lies: both frames are the world's.
fn place(writer: &mut Writer, assembly: &Product, part: &Product, placement: Id, label: &str) {
    let usage = writer.add(format!(
        "NEXT_ASSEMBLY_USAGE_OCCURRENCE({label},'',{},{},$)",
        assembly.definition, part.definition
    ));
    let usage_shape = writer.add(format!("PRODUCT_DEFINITION_SHAPE('','',{usage})"));
    let transformation = writer.add(format!(
        "ITEM_DEFINED_TRANSFORMATION('','',{placement},{placement})"
    ));
    let relation = writer.add(format!(
        "(REPRESENTATION_RELATIONSHIP('','',{},{})\
         REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION({transformation})SHAPE_REPRESENTATION_RELATIONSHIP())",
        part.shape, assembly.shape
    ));
    writer.add(format!(
        "CONTEXT_DEPENDENT_SHAPE_REPRESENTATION({relation},{usage_shape})"
    ));
}

fn file(name: &str, writer: &Writer) -> Vec<u8> {
    let head = format!(
        "ISO-10303-21;\nHEADER;\nFILE_DESCRIPTION((''),'2;1');\n\
         FILE_NAME({},'1970-01-01T00:00:00',(''),(''),'Brimful','Brimful','');\n\
         FILE_SCHEMA(('AUTOMOTIVE_DESIGN {{ 1 0 10303 214 1 1 1 1 }}'));\nENDSEC;\nDATA;\n",
        text(name)
    );
    (head + writer.data() + "ENDSEC;\nEND-ISO-10303-21;\n").into_bytes()
}

#[cfg(test)]
mod tests;
