//! What the server answers when it cannot do what is asked: a status, and a sentence with a remedy.

use super::jobs::Text;
use crate::fault::Fault;
use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use serde_json::{Map, Value, json};

/// Why a request has no answer.
#[derive(Clone, Debug)]
pub(crate) struct Refusal {
    status: StatusCode,
    says: String,
    remedy: String,
    more: Box<Map<String, Value>>,
}

impl Refusal {
    pub(crate) fn new(
        status: StatusCode,
        says: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        Self {
            status,
            says: says.into(),
            remedy: remedy.into(),
            more: Box::default(),
        }
    }

    /// What was sent cannot be used.
    pub(crate) fn unusable(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, says, remedy)
    }

    pub(crate) fn not_found(says: impl Into<String>) -> Self {
        Self::new(StatusCode::NOT_FOUND, says, "Look at the list of jobs.")
    }

    pub(crate) fn no_job(name: &str) -> Self {
        Self::not_found(format!("There is no job called `{name}`."))
    }

    pub(crate) fn conflict(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::CONFLICT, says, remedy)
    }

    pub(crate) fn forbidden(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::FORBIDDEN, says, remedy)
    }

    pub(crate) fn too_large(what: &str, bytes: usize) -> Self {
        Self::new(
            StatusCode::PAYLOAD_TOO_LARGE,
            format!("That is larger than {what} may be ({bytes} bytes)."),
            "Send less at once.",
        )
    }

    /// Work that was cancelled while it was done.
    pub(crate) fn unwanted() -> Self {
        Self::conflict("It is no longer wanted.", "Ask for it again.")
    }

    /// The server itself failed.
    pub(crate) fn own(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, says, remedy)
    }

    /// The job has been changed by somebody else; its text now comes along.
    pub(crate) fn changed_meanwhile(name: &str, now: &Text) -> Self {
        Self::new(
            StatusCode::PRECONDITION_FAILED,
            format!("`{name}` was changed meanwhile, on the disk or in another window."),
            "Look at what is there now, and make the change again.",
        )
        .with("text", json!(now.text))
        .with("etag", json!(now.etag))
    }

    /// The job cannot be worked out as it is.
    pub(crate) fn faulty(faults: &[Fault]) -> Self {
        Self::unusable(
            "The job cannot be worked out as it is.",
            "Mend what is marked.",
        )
        .with("faults", json!(faults))
    }

    fn with(mut self, key: &str, value: Value) -> Self {
        self.more.insert(key.to_owned(), value);
        self
    }

    /// As it is sent.
    pub(crate) fn body(&self) -> Value {
        let mut body = (*self.more).clone();
        body.insert(
            "error".to_owned(),
            json!({ "says": self.says, "remedy": self.remedy }),
        );
        Value::Object(body)
    }

    /// As the command tells it.
    pub(crate) fn into_fault(self) -> Fault {
        Fault::new(self.says, self.remedy)
    }
}

impl IntoResponse for Refusal {
    fn into_response(self) -> Response {
        (self.status, Json(self.body())).into_response()
    }
}
