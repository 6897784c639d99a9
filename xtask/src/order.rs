//! The import order of the crates, and of the stages inside the trade.

/// Each crate and the crates of ours it may import. A heavy or outward crate never gets below.
pub const ROOMS: &[(&str, &[&str])] = &[
    ("brimful-units", &[]),
    ("brimful-geom", &[]),
    ("brimful-job", &["brimful-units", "brimful-geom"]),
    ("brimful-mech", &["brimful-geom"]),
    ("brimful-nest", &[]),
    ("brimful-formats", &["brimful-units", "brimful-geom"]),
    (
        "brimful-tank",
        &[
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
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
            "brimful-tank",
            "brimful-text",
            "brimful-formats",
            "brimful-pack",
        ],
    ),
];

/// The modules of the trade in the order in which a job passes through them: each may use those
/// before it and none after it.
pub const STAGES: &[(&str, &[&str])] = &[(
    "brimful-tank",
    &[
        "watch",
        "name",
        "case",
        "table",
        "finding",
        "growth",
        "shape",
        "panel",
        "fitting",
        "seam",
        "space",
        "way_in",
        "candidate",
        "body",
        "panels",
        "liquid",
        "port",
        "capacity",
        "gauge",
        "weld",
        "check",
        "room",
        "mass",
        "cut",
        "practice",
        "remedy",
        "plan",
        "offer",
        "fit",
    ],
)];

#[cfg(test)]
mod tests {
    use super::*;
    use std::fs;
    use std::path::{Path, PathBuf};

    fn root() -> PathBuf {
        Path::new(env!("CARGO_MANIFEST_DIR")).join("..")
    }

    #[test]
    fn crates_import_only_from_the_rooms_below() {
        let mut rooms = fs::read_dir(root().join("crates"))
            .unwrap()
            .map(|entry| entry.unwrap().file_name().into_string().unwrap())
            .collect::<Vec<_>>();
        rooms.sort();
        for room in rooms {
            let (_, may_import) = ROOMS
                .iter()
                .find(|(name, _)| *name == room)
                .unwrap_or_else(|| panic!("{room} has no place in the order"));
            let manifest =
                fs::read_to_string(root().join("crates").join(&room).join("Cargo.toml")).unwrap();
            let manifest: toml::Table = manifest.parse().unwrap();
            for dependency in manifest["dependencies"].as_table().unwrap().keys() {
                let ours = dependency.starts_with("brimful");
                assert!(
                    !ours || may_import.contains(&dependency.as_str()),
                    "{room} must not import {dependency}"
                );
            }
        }
    }

    #[test]
    fn the_stages_of_the_trade_use_only_what_comes_before() {
        for (room, order) in STAGES {
            let source = root().join("crates").join(room).join("src");
            let mut seen = 0;
            for (place, module) in order.iter().enumerate() {
                for file in files_of(&source, module) {
                    seen += 1;
                    let text = fs::read_to_string(&file).unwrap();
                    // Tests may reach anywhere.
                    let text = text.split("#[cfg(test)]\nmod tests {").next().unwrap();
                    for later in &order[place + 1..] {
                        let uses = [format!("crate::{later}::"), format!("crate::{later};")];
                        let found = uses.iter().find(|path| text.contains(path.as_str()));
                        assert!(
                            found.is_none(),
                            "{} uses the later stage `{later}`",
                            file.display()
                        );
                    }
                }
            }
            assert!(
                seen >= order.len(),
                "only {seen} files were read for {} stages",
                order.len()
            );
        }
    }

    fn files_of(source: &Path, module: &str) -> Vec<PathBuf> {
        let mut files = Vec::new();
        let single = source.join(format!("{module}.rs"));
        if single.exists() {
            files.push(single);
        }
        let mut folders = vec![source.join(module)];
        while let Some(folder) = folders.pop() {
            for entry in fs::read_dir(folder).into_iter().flatten() {
                let path = entry.unwrap().path();
                if path.is_dir() {
                    folders.push(path);
                } else if path.extension().is_some_and(|extension| extension == "rs") {
                    files.push(path);
                }
            }
        }
        files
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
        for room in [
            "brimful-units",
            "brimful-job",
            "brimful-geom",
            "brimful-mech",
            "brimful-nest",
            "brimful-tank",
        ] {
            let manifest =
                fs::read_to_string(root().join("crates").join(room).join("Cargo.toml")).unwrap();
            let manifest: toml::Table = manifest.parse().unwrap();
            for dependency in manifest["dependencies"].as_table().unwrap().keys() {
                assert!(
                    !outward.contains(&dependency.as_str()),
                    "{room} must not import {dependency}"
                );
            }
        }
    }
}
