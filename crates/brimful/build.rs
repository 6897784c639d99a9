//! Takes the built page into the command, where it has been built (`make serve` does); without it the
//! command is whole but for the page.

use std::path::{Path, PathBuf};
use std::{env, fs, io};

fn main() -> io::Result<()> {
    let web = Path::new("../../web/dist");
    println!("cargo:rerun-if-changed={}", web.display());
    let mut files = Vec::new();
    if web.is_dir() {
        gather(&web.canonicalize()?, "", &mut files)?;
        files.sort();
    }
    let mut text = String::from("pub(super) static FILES: &[(&str, &[u8])] = &[\n");
    for (name, path) in &files {
        text.push_str(&format!("    ({name:?}, include_bytes!({path:?})),\n"));
    }
    text.push_str("];\n");
    let out = PathBuf::from(env::var_os("OUT_DIR").unwrap_or_default());
    fs::write(out.join("page.rs"), text)
}

fn gather(folder: &Path, prefix: &str, files: &mut Vec<(String, PathBuf)>) -> io::Result<()> {
    for entry in fs::read_dir(folder)? {
        let entry = entry?;
        let name = format!("{prefix}/{}", entry.file_name().to_string_lossy());
        println!("cargo:rerun-if-changed={}", entry.path().display());
        if entry.file_type()?.is_dir() {
            gather(&entry.path(), &name, files)?;
        } else {
            files.push((name, entry.path()));
        }
    }
    Ok(())
}
