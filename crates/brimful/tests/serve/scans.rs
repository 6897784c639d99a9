//! Scans that a job names: read from the folder of jobs, and from nowhere else.

use crate::client::Server;
use serde_json::json;
use std::fs;
use std::path::Path;

/// Points along a side of a scan, as a scanner takes many.
const POINTS: usize = 12;

/// The inside of a box of these sizes in millimetres, as a scanner would save it.
fn scan(sizes: [f64; 3]) -> String {
    let mut text = String::new();
    for side in 0..6 {
        let (flat, u, v) = (side / 2, (side / 2 + 1) % 3, (side / 2 + 2) % 3);
        let first = side * POINTS * POINTS + 1;
        for point in 0..POINTS * POINTS {
            let mut at = [0.0; 3];
            at[flat] = sizes[flat] * (side % 2) as f64;
            at[u] = sizes[u] * (point % POINTS) as f64 / (POINTS - 1) as f64;
            at[v] = sizes[v] * (point / POINTS) as f64 / (POINTS - 1) as f64;
            text.push_str(&format!("v {} {} {}\n", at[0], at[1], at[2]));
        }
        for row in 0..POINTS - 1 {
            for column in 0..POINTS - 1 {
                let a = first + row * POINTS + column;
                let (b, c, d) = (a + 1, a + POINTS + 1, a + POINTS);
                text.push_str(&format!("f {a} {b} {c}\nf {a} {c} {d}\n"));
            }
        }
    }
    text
}

fn job(file: &str) -> String {
    format!(
        "[job]\nname = \"scanned\"\nlengths = \"mm\"\n[space]\nscan = \"{file}\"\nscan_unit = \"mm\"\n[body]\nfitted = \"plain box\"\nthickness = 8\n[liquid]\nkind = \"water\"\n"
    )
}

fn brim(server: &Server) -> f64 {
    let plan = server.get("/api/jobs/scanned/plan");
    assert_eq!(plan.status, 200, "{plan:?}");
    plan.json()["capacity"]["brim_m3"].as_f64().unwrap()
}

fn write(folder: &Path, file: &str) {
    fs::write(folder.join("scanned.job.toml"), job(file)).unwrap();
}

#[test]
fn a_scan_in_the_folder_is_the_space_until_it_is_saved_again() {
    let folder = tempfile::tempdir().unwrap();
    let server = Server::start(folder.path());
    fs::create_dir(folder.path().join("scans")).unwrap();
    let file = folder.path().join("scans/locker.obj");
    fs::write(&file, scan([700.0, 500.0, 400.0])).unwrap();
    write(folder.path(), "scans/locker.obj");
    // By hand: clearance and walls of 8 mm off each side; the noise of a scan takes a little more.
    let most = 0.684 * 0.484 * 0.384;
    let small = brim(&server);
    assert!(small < most && small > 0.75 * most, "{small} of {most}");
    fs::write(&file, scan([900.0, 500.0, 400.0])).unwrap();
    assert!(brim(&server) > 1.2 * small);
    let model = server.get("/api/jobs/scanned/model").json();
    assert!(model["space"]["points"].as_array().unwrap().len() >= 8);
}

#[test]
fn what_lies_elsewhere_or_is_too_large_is_refused() {
    let folder = tempfile::tempdir().unwrap();
    let elsewhere = tempfile::tempdir().unwrap();
    let server = Server::start(folder.path());
    let secret = elsewhere.path().join("secret.obj");
    fs::write(&secret, scan([700.0, 500.0, 400.0])).unwrap();
    std::os::unix::fs::symlink(&secret, folder.path().join("link.obj")).unwrap();
    let huge = fs::File::create(folder.path().join("huge.obj")).unwrap();
    huge.set_len(100_000_001).unwrap();
    fs::create_dir(folder.path().join("folder.obj")).unwrap();
    let up = format!(
        "../{}/secret.obj",
        elsewhere.path().file_name().unwrap().to_str().unwrap()
    );
    for (file, why) in [
        (secret.to_str().unwrap(), "only files in the folder"),
        (&up, "only files in the folder"),
        ("link.obj", "out of the folder"),
        ("huge.obj", "larger than 100 MB"),
        ("folder.obj", "no file"),
        ("gone.obj", "cannot be read"),
        ("scanned.job.toml", "no kind that is read"),
    ] {
        write(folder.path(), file);
        let plan = server.get("/api/jobs/scanned/plan");
        assert_eq!(plan.status, 422, "{file}: {plan:?}");
        let said = plan.json()["faults"][0].to_string();
        assert!(said.contains(why), "{file}: {said}");
        assert_eq!(plan.json()["faults"][0]["line"], json!(5), "{said}");
        assert!(!said.contains(folder.path().to_str().unwrap()), "{said}");
    }
}
