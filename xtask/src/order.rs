//! The import order of the crates, and of the stages inside the trade.

/// Each crate and the crates of ours it may import. A heavy or outward crate never gets below.
pub const CRATES: &[(&str, &[&str])] = &[
    ("brimful-units", &[]),
    ("brimful-geom", &[]),
    ("brimful-job", &["brimful-units"]),
    ("brimful-mech", &["brimful-geom"]),
    ("brimful-nest", &[]),
    ("brimful-reach", &["brimful-geom"]),
    ("brimful-slosh", &["brimful-geom"]),
    ("brimful-formats", &["brimful-units", "brimful-geom"]),
    (
        "brimful-panels",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
            "brimful-reach",
        ],
    ),
    (
        "brimful-strength",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-panels",
        ],
    ),
    (
        "brimful-tank",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-nest",
            "brimful-slosh",
            "brimful-panels",
            "brimful-strength",
        ],
    ),
    (
        "brimful-text",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
            "brimful-panels",
            "brimful-strength",
            "brimful-tank",
        ],
    ),
    (
        "brimful-pack",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-nest",
            "brimful-panels",
            "brimful-strength",
            "brimful-tank",
            "brimful-text",
            "brimful-formats",
        ],
    ),
    (
        "brimful",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
            "brimful-panels",
            "brimful-strength",
            "brimful-tank",
            "brimful-text",
            "brimful-formats",
            "brimful-pack",
        ],
    ),
];

/// The modules of the trade in the order in which a job passes through them: each may use those
/// before it and none after it.
pub const STAGES: &[(&str, &[&str])] = &[
    (
        "brimful-panels",
        &[
            "name",
            "case",
            "table",
            "finding",
            "progress",
            "growth",
            "shape",
            "panel",
            "fitting",
            "seam",
            "space",
            "way_in",
            "candidate",
            "site",
            "body",
            "panels",
            "liquid",
            "port",
            "capacity",
            "gauge",
            "weld",
        ],
    ),
    (
        "brimful-strength",
        &["root", "load", "limit", "quick", "whole"],
    ),
    (
        "brimful-tank",
        &[
            "room",
            "mass",
            "cut",
            "leak_test",
            "waits",
            "hours",
            "practice",
            "slosh",
            "remedy",
            "plan",
            "offer",
            "fit",
        ],
    ),
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::imports::{Module, cycles, uses};
    use std::fs;
    use std::path::{Path, PathBuf};

    fn root() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
    }

    #[test]
    fn crates_import_only_from_the_crates_below() {
        let mut crates = fs::read_dir(root().join("crates"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect::<Vec<_>>();
        crates.sort();
        for krate in crates {
            let (_, may_import) = CRATES
                .iter()
                .find(|(name, _)| *name == krate)
                .unwrap_or_else(|| panic!("{krate} has no place in the order"));
            let manifest =
                fs::read_to_string(root().join("crates").join(&krate).join("Cargo.toml")).unwrap();
            let manifest: toml::Table = manifest.parse().unwrap();
            for dependency in manifest["dependencies"].as_table().unwrap().keys() {
                let ours = dependency.starts_with("brimful");
                assert!(
                    !ours || may_import.contains(&dependency.as_str()),
                    "{krate} must not import {dependency}"
                );
            }
        }
    }

    #[test]
    fn the_stages_of_the_trade_use_only_what_comes_before() {
        for (krate, order) in STAGES {
            let uses = uses(&root().join("crates").join(krate).join("src"));
            let place = |module: &Module| {
                let stage = module.first()?;
                Some(order.iter().position(|it| it == stage).unwrap_or_else(|| {
                    panic!("{krate}: the stage `{stage}` has no place in the order")
                }))
            };
            for (module, used) in &uses {
                let Some(own) = place(module) else { continue };
                let later = used
                    .iter()
                    .find(|it| place(it).is_some_and(|other| other > own));
                assert!(
                    later.is_none(),
                    "{krate}: {module:?} uses the later {later:?}"
                );
            }
        }
    }

    #[test]
    fn no_files_use_each_other_in_a_cycle() {
        let mut found = Vec::new();
        for (krate, _) in CRATES {
            let uses = uses(&root().join("crates").join(krate).join("src"));
            assert!(uses.values().any(|used| !used.is_empty()));
            let names =
                |cycle: Vec<Module>| cycle.iter().map(|it| it.join("::")).collect::<Vec<_>>();
            found.extend(
                cycles(&uses)
                    .into_iter()
                    .map(|it| format!("{krate}: {}", names(it).join(", "))),
            );
        }
        assert!(found.is_empty(), "{found:#?}");
    }

    #[test]
    fn heavy_crates_stay_behind_the_writers() {
        let outward = [
            "typst",
            "typst-pdf",
            "typst-layout",
            "typst-kit",
            "clap",
            "indicatif",
            "serde_json",
            "tempfile",
        ];
        for krate in [
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
            "brimful-slosh",
            "brimful-panels",
            "brimful-strength",
            "brimful-tank",
        ] {
            let manifest =
                fs::read_to_string(root().join("crates").join(krate).join("Cargo.toml")).unwrap();
            let manifest: toml::Table = manifest.parse().unwrap();
            for dependency in manifest["dependencies"].as_table().unwrap().keys() {
                assert!(
                    !outward.contains(&dependency.as_str()),
                    "{krate} must not import {dependency}"
                );
            }
        }
    }
}
