//! Reading the scan that a job names: a file beside the job's, bounded in size.

use crate::fault::Fault;
use brimful_formats::mesh::{MeshFormat, read_mesh};
use brimful_geom::scan::Scanned;
use brimful_job::{Job, Measured, Scan};
use brimful_panels::shape::ShapeFault;
use brimful_panels::space::solid_inside;
use brimful_text::{Language, Words};
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;

/// A scan of a few million triangles; no more than this is ever read.
const LARGEST_SCAN: u64 = 500_000_000;

/// Why a job has no scan.
pub(crate) enum ScanRefused {
    /// Its file cannot be read.
    File(Box<Fault>),
    /// There is no space in it.
    Shape(ShapeFault),
}

impl ScanRefused {
    /// As a fault of the job.
    pub(crate) fn into_fault(self, job: &Job) -> Fault {
        match self {
            Self::File(fault) => *fault,
            Self::Shape(fault) => Fault::of_shape(&fault, &Words::new(job, Language::English)),
        }
    }
}

/// What the scan of a job holds, which lies beside the job file; none where the job names none.
pub(crate) fn read(job: &Job, path: &Path) -> Result<Option<Arc<Scanned>>, ScanRefused> {
    let found = named(job).map(|scan| solid(scan, |scan| bytes(scan, path)));
    Ok(found.transpose()?.map(Arc::new))
}

/// The scan that a job names.
pub(crate) fn named(job: &Job) -> Option<&Scan> {
    match &job.space.as_ref()?.measured {
        Measured::Scan(scan) => Some(scan),
        _ => None,
    }
}

/// The solid inside a scan, whose bytes come from `bytes`.
pub(crate) fn solid(
    scan: &Scan,
    bytes: impl FnOnce(&Scan) -> io::Result<Vec<u8>>,
) -> Result<Scanned, ScanRefused> {
    let refused = |says: String, remedy: &str| {
        ScanRefused::File(Box::new(Fault::new(says, remedy).at(&scan.place)))
    };
    let Some(format) = MeshFormat::of_name(&scan.file) else {
        return Err(refused(
            format!("The scan `{}` is of no kind that is read here.", scan.file),
            "Save it as OBJ, PLY, STL or glTF (.obj, .ply, .stl, .gltf, .glb).",
        ));
    };
    let bytes = bytes(scan).map_err(|why| {
        refused(
            format!("The scan `{}` cannot be read: {why}.", scan.file),
            "Give its path as seen from the folder of the job file.",
        )
    })?;
    let mesh = read_mesh(&bytes, format).map_err(|why| {
        refused(
            format!("The scan `{}` cannot be read: {why}.", scan.file),
            "Save it again from the scanner's program.",
        )
    })?;
    solid_inside(scan, &mesh.points, mesh.triangles).map_err(ScanRefused::Shape)
}

fn bytes(scan: &Scan, job: &Path) -> io::Result<Vec<u8>> {
    let path = job.parent().unwrap_or(Path::new("")).join(&scan.file);
    let file = File::open(path)?;
    let mut bytes = Vec::new();
    file.take(LARGEST_SCAN + 1).read_to_end(&mut bytes)?;
    match bytes.len() as u64 > LARGEST_SCAN {
        true => Err(io::Error::other("it is larger than 500 MB")),
        false => Ok(bytes),
    }
}
