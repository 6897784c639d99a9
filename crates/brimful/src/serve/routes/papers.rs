//! The build pack of a job: made by long work, kept beside the jobs, fetched one by one or all.

use super::extract::{JobName, Path};
use super::handler::{ApiResult, App, blocking};
use crate::file;
use crate::folder::Folder;
use crate::locale::Locale;
use crate::named_bytes::NamedBytes;
use crate::serve::describe::{content, summary};
use crate::serve::error::ApiError;
use crate::serve::state::AppState;
use crate::serve::text::Text;
use crate::verb::pack::{Pages, packed};
use aide::OperationOutput;
use aide::axum::ApiRouter;
use aide::axum::routing::get_with;
use aide::generate::GenContext;
use aide::openapi::{Operation, Response as Described, StatusCode as Status};
use axum::Json;
use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use brimful_panels::progress::Progress;
use brimful_tank::plan::Plan;
use brimful_text::Language;
use schemars::{JsonSchema, json_schema};
use serde::{Deserialize, Serialize};
use std::fs;
use std::io::{Cursor, Write};
use std::path::PathBuf;
use std::sync::{Arc, PoisonError, RwLockReadGuard};

pub(super) fn routes() -> ApiRouter<Arc<AppState>> {
    ApiRouter::new()
        .api_route(
            "/jobs/{name}/papers",
            get_with(list, summary("The papers made")),
        )
        .api_route(
            "/jobs/{name}/papers.zip",
            get_with(all, summary("All papers, packed together")),
        )
        .api_route(
            "/jobs/{name}/papers/{*file}",
            get_with(one, summary("One of the papers, by its name in the list")),
        )
}

/// What lies beside a pack: the text it was made of, and its files.
#[derive(Clone, Debug, Default, Serialize, Deserialize, JsonSchema)]
pub(super) struct Papers {
    etag: Option<String>,
    files: Vec<Paper>,
}

#[derive(Clone, Debug, Serialize, Deserialize, JsonSchema)]
struct Paper {
    name: String,
    bytes: usize,
    /// What it is, in a line.
    what: String,
}

/// Makes the pack; an older one stays until the new one is complete.
pub(super) fn make(
    app: &AppState,
    name: &str,
    text: &Text,
    plan: &Plan,
    paper: brimful_pack::Paper,
    progress: &dyn Progress,
) -> ApiResult<Papers> {
    let job = format!("{name}.job.toml");
    let pages = Pages {
        job: job.as_ref(),
        text: &text.text,
        paper,
        locale: Locale::default(),
    };
    let files = packed(plan, &pages, progress).map_err(ApiError::of_failure)?;
    let papers = Papers {
        etag: Some(text.etag.clone()),
        files: files
            .iter()
            .map(|file| Paper {
                name: file.name.clone(),
                bytes: file.bytes.len(),
                what: what(&file.name).to_owned(),
            })
            .collect(),
    };
    put(app, name, &files, &papers, progress)?;
    Ok(papers)
}

/// Puts a pack and its list in the place of those before.
fn put(
    app: &AppState,
    name: &str,
    files: &[NamedBytes],
    papers: &Papers,
    progress: &dyn Progress,
) -> ApiResult<()> {
    let (folder, listed) = (folder(app, name), list_file(app, name));
    fs::create_dir_all(folder.parent().unwrap_or(&folder)).map_err(disk)?;
    let _writing = app.papers.write().unwrap_or_else(PoisonError::into_inner);
    if progress.is_cancelled() {
        return Err(ApiError::cancelled());
    }
    // A crash in between leaves no list at all rather than one of other papers.
    let before = fs::read_to_string(&listed).ok();
    if before.is_some() {
        fs::remove_file(&listed).map_err(disk)?;
    }
    let replaced = Folder::new(&folder, Language::English).and_then(|folder| folder.replace(files));
    let list = match (&replaced, before) {
        (Ok(()), _) => serde_json::to_string(papers).unwrap_or_default(),
        (Err(_), Some(before)) => before,
        (Err(_), None) => return replaced.map_err(ApiError::of_failure),
    };
    file::put(&listed, &list).map_err(disk)?;
    replaced.map_err(ApiError::of_failure)
}

/// Puts the papers of a job under another name, those that there are.
pub(super) fn rename(app: &AppState, name: &str, other: &str) -> ApiResult<()> {
    let _writing = app.papers.write().unwrap_or_else(PoisonError::into_inner);
    for place in [list_file, folder] {
        let (from, to) = (place(app, name), place(app, other));
        if from.exists() {
            fs::rename(from, to).map_err(disk)?;
        }
    }
    Ok(())
}

fn folder(app: &AppState, name: &str) -> PathBuf {
    app.jobs.hidden().join("papers").join(name)
}

fn list_file(app: &AppState, name: &str) -> PathBuf {
    app.jobs
        .hidden()
        .join("papers")
        .join(format!("{name}.json"))
}

/// While it is kept, no pack is replaced: list and files are of one.
fn reading(app: &AppState) -> RwLockReadGuard<'_, ()> {
    app.papers.read().unwrap_or_else(PoisonError::into_inner)
}

/// What has been made for a job that is there.
fn made(app: &AppState, name: &str) -> ApiResult<Papers> {
    app.jobs.read(name)?;
    let list = fs::read_to_string(list_file(app, name)).unwrap_or_default();
    Ok(serde_json::from_str(&list).unwrap_or_default())
}

async fn list(State(app): App, Path(JobName { name }): Path<JobName>) -> ApiResult<Json<Papers>> {
    blocking(app, move |app| {
        let _reading = reading(app);
        made(app, &name).map(Json)
    })
    .await
}

/// A paper by its name, which may have folders in it.
#[derive(Deserialize, JsonSchema)]
#[schemars(inline)]
struct PaperPath {
    name: String,
    file: String,
}

async fn one(
    State(app): App,
    Path(PaperPath { name, file }): Path<PaperPath>,
) -> ApiResult<Download> {
    blocking(app, move |app| {
        let _reading = reading(app);
        // Only names of the list are read: no path leads elsewhere.
        let papers = made(app, &name)?;
        let known = papers.files.iter().find(|paper| paper.name == file);
        let paper = known.ok_or_else(|| ApiError::not_found("There is no such paper."))?;
        let bytes = fs::read(folder(app, &name).join(&paper.name)).map_err(disk)?;
        let last = paper.name.rsplit('/').next().unwrap_or(&paper.name);
        Ok(Download {
            kind: kind(last),
            name: last.to_owned(),
            bytes,
        })
    })
    .await
}

async fn all(State(app): App, Path(JobName { name }): Path<JobName>) -> ApiResult<Download> {
    blocking(app, move |app| {
        let _reading = reading(app);
        let papers = made(app, &name)?;
        if papers.files.is_empty() {
            return Err(ApiError::not_found("No papers have been made yet."));
        }
        let bytes = zipped(app, &name, &papers)?;
        Ok(Download {
            kind: "application/zip",
            name: format!("{name}.zip"),
            bytes,
        })
    })
    .await
}

fn zipped(app: &AppState, name: &str, papers: &Papers) -> ApiResult<Vec<u8>> {
    let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
    // What is in it is compressed already, or small.
    let stored =
        zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    for paper in &papers.files {
        let bytes = fs::read(folder(app, name).join(&paper.name)).map_err(disk)?;
        zip.start_file(format!("{name}/{}", paper.name), stored)
            .map_err(zip_failed)?;
        zip.write_all(&bytes).map_err(disk)?;
    }
    Ok(zip.finish().map_err(zip_failed)?.into_inner())
}

/// A file that a browser saves.
struct Download {
    kind: &'static str,
    name: String,
    bytes: Vec<u8>,
}

impl IntoResponse for Download {
    fn into_response(self) -> Response {
        let attachment = format!("attachment; filename=\"{}\"", self.name);
        let headers = [
            (header::CONTENT_TYPE, self.kind.to_owned()),
            (header::CONTENT_DISPOSITION, attachment),
        ];
        (headers, self.bytes).into_response()
    }
}

impl OperationOutput for Download {
    type Inner = Self;

    fn inferred_responses(
        _: &mut GenContext,
        _: &mut Operation,
    ) -> Vec<(Option<Status>, Described)> {
        let bytes = json_schema!({ "type": "string", "format": "binary" });
        vec![(Some(Status::Code(200)), content("*/*", bytes, "The file"))]
    }
}

fn kind(name: &str) -> &'static str {
    match name.rsplit('.').next() {
        Some("pdf") => "application/pdf",
        Some("json") => "application/json",
        Some("csv") => "text/csv; charset=utf-8",
        Some("glb") => "model/gltf-binary",
        Some("dxf") => "image/vnd.dxf",
        Some("step") => "model/step",
        _ => "text/plain; charset=utf-8",
    }
}

/// What a paper is, by its name.
fn what(name: &str) -> &'static str {
    match name {
        "build-pack.pdf" => "everything on paper, for the bench and the customer",
        "build-pack.json" => "everything as figures, for other programs",
        "tank.step" => "the assembled panels as solids",
        "tank.glb" => "the assembled panels, to be looked at",
        "shell.inp" => "the strength check, for a finite-element program",
        _ if name.starts_with("panels/") => "one panel at full size",
        _ if name.starts_with("sheets/") => "one sheet with its panels at full size",
        _ if name.ends_with(".csv") => "a list for a spreadsheet",
        _ if name.ends_with(".toml") => "the job it was made of",
        _ => "a file of the pack",
    }
}

fn disk(fault: std::io::Error) -> ApiError {
    ApiError::internal(
        format!("The papers cannot be reached: {fault}."),
        "Make them again; see whether there is room on the disk.",
    )
}

fn zip_failed(fault: zip::result::ZipError) -> ApiError {
    ApiError::internal(
        format!("The papers cannot be put together: {fault}."),
        "Fetch them one by one.",
    )
}
