//! Makes the build pack of a job file: `pack_example JOB DIR [letter]`. Beside it goes
//! `step_expected.json`, the panels' volumes by the plan's own moments, for the outside reader
//! of the STEP file.

use brimful_pack::{Paper, pack};
use brimful_tank::job::Job;
use brimful_tank::plan::plan;
use std::error::Error;
use std::path::PathBuf;
use std::{env, fs};

fn main() -> Result<(), Box<dyn Error>> {
    let mut arguments = env::args().skip(1);
    let job = arguments.next().ok_or("Name the job file.")?;
    let place = PathBuf::from(
        arguments
            .next()
            .ok_or("Name the directory to write into.")?,
    );
    let paper = match arguments.next().as_deref() {
        Some("letter") => Paper::Letter,
        _ => Paper::A4,
    };
    let joined = |faults: Vec<String>| faults.join("\n");
    let job = Job::parse(&fs::read_to_string(job)?)
        .map_err(|faults| joined(faults.iter().map(ToString::to_string).collect()))?;
    let plan =
        plan(job).map_err(|faults| joined(faults.iter().map(ToString::to_string).collect()))?;
    for file in pack(&plan, paper)? {
        let path = place.join(&file.name);
        if let Some(folder) = path.parent() {
            fs::create_dir_all(folder)?;
        }
        fs::write(path, file.bytes)?;
    }
    let solids: Vec<String> = plan
        .panels
        .iter()
        .map(|panel| {
            let name = format!("{} {}", panel.mark, panel.name);
            let volume = panel.finished.solid_with_cutouts().moments().volume;
            format!("{{\"name\": {name:?}, \"volume_m3\": {volume:e}}}")
        })
        .collect();
    let expected = format!("{{\"solids\": [{}]}}", solids.join(", "));
    fs::write(place.join("step_expected.json"), expected)?;
    Ok(())
}
