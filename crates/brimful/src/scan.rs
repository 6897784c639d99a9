//! Reading the scan that a job names: a file beside the job's, bounded in size.

use crate::fault::Fault;
use brimful_formats::mesh::{MeshError, MeshFormat, read_mesh};
use brimful_geom::scan::Scanned;
use brimful_job::{Job, Measured, Place, Scan};
use brimful_panels::shape::ShapeFault;
use brimful_panels::space::solid_inside;
use brimful_text::{Words, say};
use std::fmt;
use std::fs::File;
use std::io::{self, Read};
use std::path::Path;
use std::sync::Arc;

/// A scan of a few million triangles; no more than this is ever read.
const LARGEST_SCAN: u64 = 500_000_000;

/// Why a job has no scan.
pub(crate) enum ScanRefused {
    /// Its name is that of no kind of file that is read.
    Kind { file: String, place: Place },
    /// Its file cannot be read.
    Unreadable {
        file: String,
        place: Place,
        why: io::Error,
    },
    /// What is in its file is no mesh.
    NoMesh {
        file: String,
        place: Place,
        why: MeshError,
    },
    /// There is no space in it.
    Shape(ShapeFault),
}

impl ScanRefused {
    /// As a fault of the job.
    pub(crate) fn into_fault(self, words: &Words<'_>) -> Fault {
        let cannot = |file: &str, why: &dyn fmt::Display| {
            say!(
                words,
                "The scan `{file}` cannot be read: {why}.",
                file = words.given(file),
                why = words.given(&why.to_string())
            )
        };
        let (says, remedy, place) = match self {
            Self::Kind { file, place } => (
                say!(
                    words,
                    "The scan `{file}` is of no kind that is read here.",
                    file = words.given(&file)
                ),
                say!(
                    words,
                    "Save it as OBJ, PLY, STL or glTF ({endings}).",
                    endings = words.symbol(".obj, .ply, .stl, .gltf, .glb")
                ),
                place,
            ),
            Self::Unreadable { file, place, why } => (
                cannot(&file, &why),
                say!(
                    words,
                    "Give its path as seen from the folder of the job file."
                ),
                place,
            ),
            Self::NoMesh { file, place, why } => (
                cannot(&file, &why),
                say!(words, "Save it again from the scanner's program."),
                place,
            ),
            Self::Shape(fault) => return Fault::of_shape(&fault, words),
        };
        Fault::new(says, remedy).at(&place)
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
    let (file, place) = (scan.file.clone(), scan.place.clone());
    let Some(format) = MeshFormat::of_name(&file) else {
        return Err(ScanRefused::Kind { file, place });
    };
    let bytes = match bytes(scan) {
        Ok(bytes) => bytes,
        Err(why) => return Err(ScanRefused::Unreadable { file, place, why }),
    };
    let mesh = match read_mesh(&bytes, format) {
        Ok(mesh) => mesh,
        Err(why) => return Err(ScanRefused::NoMesh { file, place, why }),
    };
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
