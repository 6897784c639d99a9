//! Pages as PDF, set by the typst compiler from source text and files held in memory.
//!
//! The world the source sees has no disk, no network and no clock: only the files handed over,
//! the fonts compiled in, and no date. So the same source gives the same bytes.

use std::collections::BTreeMap;
use std::fmt;

use typst::diag::{FileError, FileResult, SourceDiagnostic};
use typst::foundations::{Bytes, Datetime, Duration, Smart};
use typst::syntax::{FileId, RootedPath, Source, VirtualPath, VirtualRoot};
use typst::text::{Font, FontBook};
use typst::utils::LazyHash;
use typst::{Library, LibraryExt, World, WorldExt};
use typst_kit::fonts::{FontStore, embedded};
use typst_layout::PagedDocument;
use typst_pdf::{PdfOptions, pdf};

/// The sans-serif family that the source and its drawings can name (SIL Open Font License).
pub const SANS: &str = "Liberation Sans";

const FONT_FILES: [&[u8]; 2] = [
    include_bytes!("../fonts/LiberationSans-Regular.ttf"),
    include_bytes!("../fonts/LiberationSans-Bold.ttf"),
];

/// Where the main source stands among the files.
const MAIN: &str = "/main.typ";

/// Why the source gives no document.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PdfError {
    /// A file's name cannot be a path.
    FileName {
        /// The name.
        name: String,
    },
    /// The compiler refuses the source.
    Source {
        /// What it says.
        message: String,
        /// The line of the main source, from 1; none where it points elsewhere.
        line: Option<usize>,
        /// That line.
        text: String,
    },
}

impl fmt::Display for PdfError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::FileName { name } => write!(
                f,
                "The file {name:?} cannot be handed to the page compiler; give it a plain relative path."
            ),
            Self::Source {
                message,
                line: Some(line),
                text,
            } => write!(
                f,
                "The pages cannot be set: {message}, at line {line} of their source: {text:?}. Mend that line."
            ),
            Self::Source { message, .. } => {
                write!(f, "The pages cannot be set: {message}. Mend their source.")
            }
        }
    }
}

impl std::error::Error for PdfError {}

/// Sets `source` as PDF. It reads `files` by their names, as in `image("sheet.svg")`.
///
/// # Errors
/// [`PdfError`] with the compiler's first complaint and its place.
pub fn compile(source: &str, files: &[(String, Vec<u8>)]) -> Result<Vec<u8>, PdfError> {
    let world = Desk::new(source, files)?;
    let first = |errors: &[SourceDiagnostic]| world.complaint(errors);
    let document = typst::compile::<PagedDocument>(&world)
        .output
        .map_err(|errors| first(&errors))?;
    let options = PdfOptions {
        // Left alone, the compiler's version is written into the file.
        creator: Smart::Custom(Some("Brimful".into())),
        // The pages are for print; tags would double the file.
        tagged: false,
        ..PdfOptions::default()
    };
    let bytes = pdf(&document, &options).map_err(|errors| first(&errors))?;
    // Nothing of one document helps the next.
    typst::comemo::evict(0);
    Ok(bytes)
}

/// All that the source can see.
struct Desk {
    library: LazyHash<Library>,
    fonts: FontStore,
    main: Source,
    files: BTreeMap<String, Bytes>,
}

impl Desk {
    fn new(source: &str, files: &[(String, Vec<u8>)]) -> Result<Self, PdfError> {
        let mut fonts = FontStore::new();
        for data in FONT_FILES {
            fonts.extend(Font::iter(Bytes::new(data)).map(|font| {
                let info = font.info().clone();
                (font, info)
            }));
        }
        fonts.extend(embedded());
        let main = Source::new(path_id(MAIN)?, source.to_owned());
        let mut named = BTreeMap::new();
        for (name, bytes) in files {
            named.insert(path_of(path_id(name)?), Bytes::new(bytes.clone()));
        }
        Ok(Self {
            library: LazyHash::new(Library::default()),
            fonts,
            main,
            files: named,
        })
    }

    fn complaint(&self, errors: &[SourceDiagnostic]) -> PdfError {
        let Some(error) = errors.first() else {
            return PdfError::Source {
                message: "the compiler failed without a word".into(),
                line: None,
                text: String::new(),
            };
        };
        let start = (error.span.id() == Some(self.main.id()))
            .then(|| self.range(error.span))
            .flatten()
            .map(|range| range.start);
        let line = start.and_then(|start| self.main.lines().byte_to_line(start));
        let text = line.and_then(|line| self.main.text().lines().nth(line));
        PdfError::Source {
            message: error.message.to_string(),
            line: line.map(|line| line + 1),
            text: text.unwrap_or_default().to_owned(),
        }
    }
}

fn path_id(name: &str) -> Result<FileId, PdfError> {
    let path = VirtualPath::new(name).map_err(|_| PdfError::FileName {
        name: name.to_owned(),
    })?;
    Ok(RootedPath::new(VirtualRoot::Project, path).intern())
}

fn path_of(id: FileId) -> String {
    format!("{:?}", id.get().vpath())
}

impl World for Desk {
    fn library(&self) -> &LazyHash<Library> {
        &self.library
    }
    fn book(&self) -> &LazyHash<FontBook> {
        self.fonts.book()
    }
    fn main(&self) -> FileId {
        self.main.id()
    }
    fn source(&self, id: FileId) -> FileResult<Source> {
        if id == self.main.id() {
            Ok(self.main.clone())
        } else {
            Err(not_there(id))
        }
    }
    fn file(&self, id: FileId) -> FileResult<Bytes> {
        self.files
            .get(&path_of(id))
            .cloned()
            .ok_or_else(|| not_there(id))
    }
    fn font(&self, index: usize) -> Option<Font> {
        self.fonts.font(index)
    }
    fn today(&self, _offset: Option<Duration>) -> Option<Datetime> {
        None
    }
}

fn not_there(id: FileId) -> FileError {
    FileError::NotFound(path_of(id).into())
}

#[cfg(test)]
mod tests {
    use super::*;

    const SQUARE: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10" viewBox="0 0 10 10"><rect width="10" height="10"/></svg>"#;

    #[test]
    fn the_same_source_gives_the_same_pdf() {
        let source =
            "#set text(font: \"Liberation Sans\")\nPage one #pagebreak() #image(\"square.svg\")";
        let files = [("square.svg".to_owned(), SQUARE.as_bytes().to_vec())];
        let first = compile(source, &files).unwrap();
        assert!(first.starts_with(b"%PDF-"));
        assert_eq!(first, compile(source, &files).unwrap());
        let text = String::from_utf8_lossy(&first);
        assert!(!text.contains("CreationDate") && text.contains("/Count 2"));
    }

    #[test]
    fn a_fault_names_its_line() {
        let fault = compile("fine\n#nothing-of-that-name\n", &[]).unwrap_err();
        assert!(
            matches!(&fault, PdfError::Source { line: Some(2), .. }),
            "{fault}"
        );
        assert!(fault.to_string().contains("nothing-of-that-name"));
    }

    #[test]
    fn there_is_no_disk_and_no_clock() {
        assert!(compile("#read(\"/etc/hostname\")", &[]).is_err());
        assert!(compile("#datetime.today().display()", &[]).is_err());
    }
}
