//! The build pack of a job: made by long work, kept beside the jobs, fetched one by one or all.

use super::{Answer, OfShop, Path, off};
use crate::fault::Failure;
use crate::file;
use crate::folder::{Folder, NamedBytes};
use crate::serve::Shop;
use crate::serve::jobs::Text;
use crate::serve::refusal::Refusal;
use crate::serve::work::Work;
use crate::verb::pack::{Pages, packed};
use axum::Json;
use axum::Router;
use axum::extract::State;
use axum::http::header;
use axum::response::{IntoResponse, Response};
use axum::routing::get;
use brimful_tank::plan::Plan;
use brimful_tank::watch::Watch;
use serde::{Deserialize, Serialize};
use serde_json::{Value, json};
use std::fs;
use std::io::{Cursor, Write};
use std::path::PathBuf;
use std::sync::{Arc, PoisonError, RwLockReadGuard};

pub(super) fn routes() -> Router<Arc<Shop>> {
    Router::new()
        .route("/jobs/{name}/papers", get(list))
        .route("/jobs/{name}/papers.zip", get(all))
        .route("/jobs/{name}/papers/{*file}", get(one))
}

/// What lies beside a pack: the text it was made of, and its files.
#[derive(Clone, Debug, Default, Serialize, Deserialize)]
struct Papers {
    etag: Option<String>,
    files: Vec<Paper>,
}

#[derive(Clone, Debug, Serialize, Deserialize)]
struct Paper {
    name: String,
    bytes: usize,
    /// What it is, in a line.
    what: String,
}

/// Makes the pack anew; the old one stays until the new one is whole.
pub(super) fn make(
    shop: &Shop,
    name: &str,
    text: &Text,
    plan: &Plan,
    paper: brimful_pack::Paper,
    work: &Work,
) -> Answer<Value> {
    let job = format!("{name}.job.toml");
    let pages = Pages {
        job: job.as_ref(),
        text: &text.text,
        paper,
    };
    let files = packed(plan, &pages, work).map_err(|failure| failure.into_refusal())?;
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
    put(shop, name, &files, &papers, work)?;
    Ok(json!(papers))
}

/// Puts a pack and its list in the place of those before.
fn put(shop: &Shop, name: &str, files: &[NamedBytes], papers: &Papers, work: &Work) -> Answer<()> {
    let (folder, listed) = (folder(shop, name), beside(shop, name));
    fs::create_dir_all(folder.parent().unwrap_or(&folder)).map_err(disk)?;
    let _alone = shop.papers.write().unwrap_or_else(PoisonError::into_inner);
    if work.is_cancelled() {
        return Err(Refusal::unwanted());
    }
    // Cut off in between, there is no list at all rather than one of other papers.
    let before = fs::read_to_string(&listed).ok();
    if before.is_some() {
        fs::remove_file(&listed).map_err(disk)?;
    }
    let replaced = Folder::new(&folder).and_then(|folder| folder.replace(files));
    let list = match (&replaced, before) {
        (Ok(()), _) => serde_json::to_string(papers).unwrap_or_default(),
        (Err(_), Some(before)) => before,
        (Err(_), None) => return replaced.map_err(Failure::into_refusal),
    };
    file::put(&listed, &list).map_err(disk)?;
    replaced.map_err(Failure::into_refusal)
}

/// Puts the papers of a job under another name, those that there are.
pub(super) fn rename(shop: &Shop, name: &str, other: &str) -> Answer<()> {
    let _alone = shop.papers.write().unwrap_or_else(PoisonError::into_inner);
    for place in [beside, folder] {
        let (from, to) = (place(shop, name), place(shop, other));
        if from.exists() {
            fs::rename(from, to).map_err(disk)?;
        }
    }
    Ok(())
}

fn folder(shop: &Shop, name: &str) -> PathBuf {
    shop.jobs.hidden().join("papers").join(name)
}

fn beside(shop: &Shop, name: &str) -> PathBuf {
    shop.jobs
        .hidden()
        .join("papers")
        .join(format!("{name}.json"))
}

/// While it is kept, no pack is replaced: list and files are of one.
fn still(shop: &Shop) -> RwLockReadGuard<'_, ()> {
    shop.papers.read().unwrap_or_else(PoisonError::into_inner)
}

/// What has been made for a job that is there.
fn made(shop: &Shop, name: &str) -> Answer<Papers> {
    shop.jobs.read(name)?;
    let list = fs::read_to_string(beside(shop, name)).unwrap_or_default();
    Ok(serde_json::from_str(&list).unwrap_or_default())
}

async fn list(State(shop): OfShop, Path(name): Path<String>) -> Answer<Json<Value>> {
    off(shop, move |shop| {
        let _still = still(shop);
        Ok(Json(json!(made(shop, &name)?)))
    })
    .await
}

async fn one(State(shop): OfShop, Path((name, file)): Path<(String, String)>) -> Answer<Response> {
    off(shop, move |shop| {
        let _still = still(shop);
        // Only names of the list are read: no path leads elsewhere.
        let papers = made(shop, &name)?;
        let known = papers.files.iter().find(|paper| paper.name == file);
        let paper = known.ok_or_else(|| Refusal::not_found("There is no such paper."))?;
        let bytes = fs::read(folder(shop, &name).join(&paper.name)).map_err(disk)?;
        let last = paper.name.rsplit('/').next().unwrap_or(&paper.name);
        Ok(download(kind(last), last, bytes))
    })
    .await
}

async fn all(State(shop): OfShop, Path(name): Path<String>) -> Answer<Response> {
    off(shop, move |shop| {
        let _still = still(shop);
        let papers = made(shop, &name)?;
        if papers.files.is_empty() {
            return Err(Refusal::not_found("No papers have been made yet."));
        }
        let mut zip = zip::ZipWriter::new(Cursor::new(Vec::new()));
        // What is in it is packed already, or small.
        let stored = zip::write::SimpleFileOptions::default()
            .compression_method(zip::CompressionMethod::Stored);
        for paper in &papers.files {
            let bytes = fs::read(folder(shop, &name).join(&paper.name)).map_err(disk)?;
            let packed = zip.start_file(format!("{name}/{}", paper.name), stored);
            packed.map_err(trouble)?;
            zip.write_all(&bytes).map_err(disk)?;
        }
        let bytes = zip.finish().map_err(trouble)?.into_inner();
        Ok(download("application/zip", &format!("{name}.zip"), bytes))
    })
    .await
}

fn download(kind: &'static str, name: &str, bytes: Vec<u8>) -> Response {
    let attachment = format!("attachment; filename=\"{name}\"");
    let headers = [
        (header::CONTENT_TYPE, kind.to_owned()),
        (header::CONTENT_DISPOSITION, attachment),
    ];
    (headers, bytes).into_response()
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

fn disk(fault: std::io::Error) -> Refusal {
    Refusal::own(
        format!("The papers cannot be reached: {fault}."),
        "Make them again; see whether there is room on the disk.",
    )
}

fn trouble(fault: zip::result::ZipError) -> Refusal {
    Refusal::own(
        format!("The papers cannot be put together: {fault}."),
        "Fetch them one by one.",
    )
}
