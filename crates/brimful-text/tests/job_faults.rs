//! The words of every kind of fault of a job file, and the page of its keys.

use brimful_job::Job;
use brimful_text::Language;

fn listed(text: &str, language: Language) -> Vec<String> {
    let faults = Job::parse(text).err().unwrap_or_default();
    let faults = faults.iter();
    faults
        .map(|fault| format!("> {}", language.job_fault(fault)))
        .collect()
}

/// The file holds jobs, each followed by the faults it must be given, as lines that begin with `>`.
#[test]
fn faults_are_said_in_these_words() {
    let mut wrong = Vec::new();
    for case in include_str!("job_faults.txt").split("=====\n") {
        let start = case.find("> ").expect("a case with its faults");
        let (text, said) = case.split_at(start);
        let listed = listed(text, Language::English).join("\n");
        if listed != said.trim_end() {
            wrong.push(format!("{text}{listed}\n"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("=====\n"));
}

/// A sentence without a mark in the pseudo-locale would come from outside the templates.
#[test]
fn every_fault_is_said_in_another_language() {
    for case in include_str!("job_faults.txt").split("=====\n") {
        let (text, _) = case.split_at(case.find("> ").expect("a case with its faults"));
        for fault in Job::parse(text).err().unwrap_or_default() {
            let said = Language::Pseudo.job_fault(&fault);
            for text in [said.says, said.remedy] {
                assert!(text.as_str().contains('\u{b7}'), "{fault:?}: {text}");
            }
        }
    }
}

#[test]
fn the_page_of_keys_is_what_the_reader_takes() {
    let written = concat!(env!("CARGO_MANIFEST_DIR"), "/../../docs/job-file.md");
    let written = std::fs::read_to_string(written).unwrap_or_default();
    assert!(
        written == Language::English.reference_page().as_str(),
        "run: cargo run --release -p brimful-text --example job_file > docs/job-file.md"
    );
}
