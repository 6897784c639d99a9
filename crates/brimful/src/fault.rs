//! What keeps a verb from its answer: faults, each with place, reason and remedy, and the exit
//! code they lead to.

use brimful_job::{JobFault, Place};
use brimful_panels::shape::ShapeFault;
use brimful_text::{Language, Text, Words};
use schemars::JsonSchema;
use serde::Serialize;
use std::ops::Range;
use std::process::ExitCode;

/// One fault of a job file, of the call, or of Brimful itself.
#[derive(Clone, Debug, Default, PartialEq, Serialize, JsonSchema)]
pub struct Fault {
    /// The line of the job file, from 1; null where no line is at fault.
    pub line: Option<usize>,
    /// The character in the line, from 1; null as for the line.
    pub column: Option<usize>,
    /// The key of the job file, as `space.obstacle[2].from`; null where none is at fault.
    pub key: Option<String>,
    /// What is wrong, as a sentence.
    pub says: String,
    /// What is taken there.
    pub allowed: Vec<String>,
    /// What was probably meant.
    pub nearest: Option<String>,
    /// What to do, as a sentence; may be empty.
    pub remedy: String,
    /// The bytes of the job file it is about.
    #[serde(skip)]
    pub(crate) span: Range<usize>,
}

/// All faults of a call, in the order of their places.
#[derive(Clone, Debug, PartialEq, Serialize, JsonSchema)]
pub struct Faults {
    /// Never empty.
    pub faults: Vec<Fault>,
}

/// Why a verb has no answer.
#[derive(Debug)]
pub(crate) struct Failure {
    /// Never empty.
    pub(crate) faults: Vec<Fault>,
    /// Whether it is Brimful itself that failed.
    pub(crate) own: bool,
    /// Name and text of the job file that the faults point into.
    pub(crate) file: Option<(String, String)>,
}

impl Fault {
    /// A fault of no place.
    pub(crate) fn new(says: Text, remedy: Text) -> Self {
        Self {
            says: says.into(),
            remedy: remedy.into(),
            ..Self::default()
        }
    }

    /// With its place in the job file.
    pub(crate) fn at(self, place: &Place) -> Self {
        if place.line == 0 {
            return self;
        }
        Self {
            line: Some(place.line),
            column: Some(place.column),
            span: place.span.clone(),
            ..self
        }
    }
}

/// In English, as the server answers.
impl From<JobFault> for Fault {
    fn from(fault: JobFault) -> Self {
        Self::of_job(fault, Language::English)
    }
}

impl Fault {
    /// A fault of the text of a job file.
    pub(crate) fn of_job(fault: JobFault, words: Language) -> Self {
        let said = words.job_fault(&fault);
        let place = Place {
            line: fault.line,
            column: fault.column,
            span: fault.span,
        };
        Self {
            key: Some(said.path).filter(|path| !path.is_empty()),
            allowed: said.allowed,
            nearest: said.nearest,
            ..Self::new(said.says, said.remedy)
        }
        .at(&place)
    }

    /// A fault of a shape of the job.
    pub(crate) fn of_shape(fault: &ShapeFault, words: &Words<'_>) -> Self {
        let told = words.shape_fault(fault);
        Self::new(told.says, told.remedy).at(&fault.place)
    }

    /// All faults of the shapes of a job.
    pub(crate) fn of_shapes(faults: &[ShapeFault], words: &Words<'_>) -> Vec<Self> {
        let faults = faults.iter();
        faults.map(|fault| Self::of_shape(fault, words)).collect()
    }
}

impl Failure {
    /// The call cannot be used.
    pub(crate) fn call(says: Text, remedy: Text) -> Self {
        Self::of_call(Fault::new(says, remedy))
    }

    /// The call cannot be used, for this fault.
    pub(crate) fn of_call(fault: Fault) -> Self {
        Self {
            faults: vec![fault],
            own: false,
            file: None,
        }
    }

    /// The job file cannot be used.
    pub(crate) fn job(name: &str, text: &str, faults: Vec<Fault>) -> Self {
        Self {
            faults,
            own: false,
            file: Some((name.to_owned(), text.to_owned())),
        }
    }

    /// Brimful itself failed.
    pub(crate) fn own(fault: Fault) -> Self {
        Self {
            faults: vec![fault],
            own: true,
            file: None,
        }
    }

    /// The exit code of a failure of Brimful itself.
    pub(crate) const OWN: u8 = 3;

    /// 2 for the job file and the call, 3 for Brimful itself.
    pub(crate) fn exit_code(&self) -> ExitCode {
        ExitCode::from(if self.own { Self::OWN } else { 2 })
    }
}
