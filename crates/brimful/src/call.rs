//! The call: verbs and their arguments. What is wrong with a call, and the help, are said by the library
//! that reads it, in English alone.

use crate::fault::Failure;
use crate::locale::Locale;
use crate::outcome::Outcome;
#[cfg(feature = "serve")]
use crate::serve::Options;
use crate::{report, verb};
use brimful_tank::plan::Depth;
use brimful_text::Language;
use brimful_units::{Angle, angle_text};
#[cfg(feature = "papers")]
use clap::ValueEnum;
use clap::{Args, Parser, Subcommand};
use std::path::{Path, PathBuf};
use std::process::ExitCode;

/// Works out a one-off liquid tank welded from flat thermoplastic sheet: panels, checks, cut
/// layout, welds, gauge table and the build pack for the bench, all from one job file.
#[derive(Debug, Parser)]
#[command(name = "brimful", version, max_term_width = 100, after_help = EXIT_CODES)]
pub(crate) struct Call {
    #[command(subcommand)]
    verb: Verb,
    /// The language to answer in; `en-XA` is the pseudo-locale for tests
    #[arg(long, value_name = "TAG", global = true, hide = true)]
    #[arg(default_value = "en", value_parser = language)]
    language: Language,
}

const EXIT_CODES: &str = "Exit codes: 0 done, and nothing stops the build; 1 done, and a finding \
stops the build; 2 the job file or the call cannot be used; 3 Brimful itself failed.";

#[derive(Debug, Subcommand)]
enum Verb {
    /// Write a commented starter job
    New {
        /// The job file to write; it must not be there yet
        #[arg(value_name = "FILE", required_unless_present = "explain")]
        file: Option<PathBuf>,
        /// Begin from an example instead of the plain starter
        #[arg(long, value_name = "NAME")]
        like: Option<String>,
        /// Write no file: tell of a key of the job file, as space.clearance; of a section, list its
        /// keys; without either, list the sections
        #[arg(long, value_name = "KEY", num_args = 0..=1, default_missing_value = "")]
        #[arg(conflicts_with_all = ["file", "like", "json"])]
        explain: Option<String>,
        /// Answer as JSON
        #[arg(long)]
        json: bool,
    },
    /// List the bodies that fit the space, with what each holds, costs and gives up
    Fit {
        /// The job file, NAME.job.toml
        #[arg(value_name = "JOB")]
        job: PathBuf,
        /// Answer as JSON, in SI units (docs/schema/brimful.schema.json)
        #[arg(long)]
        json: bool,
        /// Write the body of this name into the job file; comments and the old file are kept
        #[arg(long, value_name = "NAME")]
        write: Option<String>,
    },
    /// Check the whole tank: summary, findings, and changes that were worked out where it does not hold
    Check {
        #[command(flatten)]
        given: Given,
        /// Write the worked-out change of this number into the job file, as the check lists them, and check
        /// again; comments and the old file are kept
        #[arg(long, value_name = "NUMBER", conflicts_with = "quick")]
        take: Option<usize>,
    },
    /// Lay the panels out on the sheets, with the order of cuts
    Cut(Given),
    /// List seams, runs, rod, hours and the order of work
    Weld(Given),
    /// Work out how the liquid swings in small waves, at every fill, with its baffles and without
    Slosh(Given),
    /// Print the gauge table: dip against volume
    Gauge {
        #[command(flatten)]
        given: Given,
        /// Tilt about travel, left side up: "3 deg", "2 %"
        #[arg(long, value_name = "ANGLE", value_parser = tilt, allow_hyphen_values = true)]
        heel: Option<Angle>,
        /// Tilt about the cross axis, front down: "3 deg", "2 %"
        #[arg(long, value_name = "ANGLE", value_parser = tilt, allow_hyphen_values = true)]
        pitch: Option<Angle>,
    },
    /// Write the build pack: paper, drawings and lists
    #[cfg(feature = "papers")]
    Pack {
        #[command(flatten)]
        given: Given,
        /// The folder to write; an earlier pack in it is replaced as a whole
        #[arg(short = 'o', long = "out", value_name = "DIR")]
        folder: PathBuf,
        /// The paper to print on
        #[arg(long, value_enum, default_value_t = Paper::A4)]
        paper: Paper,
    },
    /// Open the page over a folder of jobs, on this machine alone
    #[cfg(feature = "serve")]
    Serve {
        /// The folder of jobs
        #[arg(value_name = "FOLDER", default_value = ".")]
        folder: PathBuf,
        /// The port; 0 for any that is free
        #[arg(long, default_value_t = 4180)]
        port: u16,
        /// Let others on the workshop's network in, by a code that is shown
        #[arg(long)]
        share: bool,
    },
}

/// What every verb that reads a job is given.
#[derive(Args, Debug)]
struct Given {
    /// The job file, NAME.job.toml
    #[arg(value_name = "JOB")]
    job: PathBuf,
    /// Answer as JSON, in SI units (docs/schema/brimful.schema.json)
    #[arg(long)]
    json: bool,
    /// For drafts: strength by published plate coefficients alone, in milliseconds
    #[arg(long)]
    quick: bool,
}

impl Given {
    /// How surely the tank is checked; `full` is what the verb needs where it is no draft.
    fn depth(&self, full: Depth) -> Depth {
        if self.quick { Depth::Quick } else { full }
    }
}

#[cfg(feature = "papers")]
/// A size of paper.
#[derive(Clone, Copy, Debug, PartialEq, Eq, ValueEnum)]
enum Paper {
    /// 210 x 297 mm
    A4,
    /// 8 1/2 x 11 in
    Letter,
}

#[cfg(feature = "papers")]
impl From<Paper> for brimful_pack::Paper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::A4 => Self::A4,
            Paper::Letter => Self::Letter,
        }
    }
}

/// Reads the arguments of the process; help, version and bad calls are answered here, and give
/// the exit code.
pub(crate) fn read() -> Result<Call, ExitCode> {
    Call::try_parse().map_err(|answer| {
        if !answer.use_stderr() {
            // A reader who has left needs no help.
            let _ = answer.print();
            return ExitCode::SUCCESS;
        }
        if std::env::args_os().any(|argument| argument == "--json") {
            let says = answer.to_string();
            let says = says.trim().trim_start_matches("error: ").to_owned();
            let words = Language::English;
            let remedy = words.given("See `brimful --help`.");
            let failure = Failure::call(words.given(&says), remedy);
            report::report(&failure, true, words);
        } else {
            let _ = answer.print();
        }
        ExitCode::from(2)
    })
}

impl Call {
    /// Whether the answer is wanted as JSON.
    pub(crate) fn json(&self) -> bool {
        match &self.verb {
            Verb::New { json, .. } | Verb::Fit { json, .. } => *json,
            Verb::Cut(given) | Verb::Weld(given) | Verb::Slosh(given) => given.json,
            Verb::Check { given, .. } | Verb::Gauge { given, .. } => given.json,
            #[cfg(feature = "papers")]
            Verb::Pack { given, .. } => given.json,
            #[cfg(feature = "serve")]
            Verb::Serve { .. } => false,
        }
    }

    /// The language to answer in.
    pub(crate) fn language(&self) -> Language {
        self.language
    }

    /// Does what the verb says.
    pub(crate) fn answer(&self) -> Result<Outcome, Failure> {
        let json = self.json();
        let locale = Locale::of(self.language);
        match &self.verb {
            Verb::New {
                explain: Some(key), ..
            } => verb::explain::explain(key, self.language),
            Verb::New { file, like, .. } => {
                let file = file.as_deref().unwrap_or(Path::new(""));
                verb::new::new(file, like.as_deref(), json, self.language)
            }
            Verb::Fit { job, write, .. } => verb::fit::fit(job, json, write.as_deref(), locale),
            Verb::Check { given, take } => {
                let taken = take
                    .map(|number| verb::take::take(&given.job, number, locale))
                    .transpose()?;
                let depth = given.depth(Depth::Remedies);
                verb::check::check(&given.job, json, depth, taken, locale)
            }
            Verb::Cut(given) => verb::cut::cut(&given.job, json, given.depth(Depth::Whole), locale),
            Verb::Weld(given) => {
                verb::weld::weld(&given.job, json, given.depth(Depth::Whole), locale)
            }
            Verb::Slosh(given) => {
                verb::slosh::slosh(&given.job, json, given.depth(Depth::Whole), locale)
            }
            Verb::Gauge { given, heel, pitch } => verb::gauge::gauge(
                &given.job,
                json,
                given.depth(Depth::Whole),
                *heel,
                *pitch,
                locale,
            ),
            #[cfg(feature = "papers")]
            Verb::Pack {
                given,
                folder,
                paper,
            } => verb::pack::pack(
                &given.job,
                json,
                given.depth(Depth::Remedies),
                folder,
                (*paper).into(),
                locale,
            ),
            #[cfg(feature = "serve")]
            Verb::Serve {
                folder,
                port,
                share,
            } => {
                let (port, share) = (*port, *share);
                verb::serve::serve(folder, &Options { port, share })
            }
        }
    }
}

/// Steeper than this no tank stands; the same limit as in the job file.
const STEEPEST: Angle = Angle::from_deg(45.0);

fn language(tag: &str) -> Result<Language, String> {
    Language::of_tag(tag).ok_or_else(|| "no such language is spoken here".to_owned())
}

fn tilt(text: &str) -> Result<Angle, String> {
    let angle = angle_text(text).map_err(|fault| {
        format!("{fault}; write the unit after the number, such as \"3 deg\" or \"2 %\"")
    })?;
    if angle.abs() > STEEPEST {
        return Err("a tilt in use is at most 45 deg".to_owned());
    }
    Ok(angle)
}

#[cfg(test)]
mod tests {
    use super::*;
    use clap::CommandFactory;

    #[test]
    fn the_call_is_sound() {
        Call::command().debug_assert();
    }

    #[test]
    fn a_tilt_needs_its_unit_and_a_limit() {
        assert_eq!(tilt("3 deg"), Ok(Angle::from_deg(3.0)));
        assert_eq!(tilt("-2 %"), Ok(Angle::from_slope(-0.02)));
        for bad in ["3", "", "46 deg", "nan deg", "inf deg", "3 mm"] {
            assert!(tilt(bad).is_err(), "{bad}");
        }
    }
}
