//! What the server answers when it cannot do what is asked: a status, and a sentence with a remedy.

use super::describe;
use super::text::Text;
use crate::edit::EditRefused;
use crate::fault::{Failure, Fault};
use aide::OperationOutput;
use aide::generate::GenContext;
use aide::openapi::{Operation, Response as Described, StatusCode as Status};
use axum::Json;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use brimful_text::Language;
use schemars::JsonSchema;
use serde::Serialize;

/// Why a request has no answer.
#[derive(Clone, Debug)]
pub(crate) struct ApiError {
    status: StatusCode,
    body: Box<ErrorBody>,
}

/// The body of an answer with a status of 400 and above.
#[derive(Clone, Debug, Serialize, JsonSchema)]
pub(crate) struct ErrorBody {
    error: Message,
    /// What is wrong with the job, where it cannot be worked out.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "Vec<Fault>")]
    faults: Option<Vec<Fault>>,
    /// The job as it is now, where the change was made to an older text.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    text: Option<String>,
    /// The etag of that text.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(with = "String")]
    etag: Option<String>,
}

#[derive(Clone, Debug, Serialize, JsonSchema)]
struct Message {
    says: String,
    remedy: String,
}

impl ApiError {
    pub(crate) fn new(
        status: StatusCode,
        says: impl Into<String>,
        remedy: impl Into<String>,
    ) -> Self {
        let error = Message {
            says: says.into(),
            remedy: remedy.into(),
        };
        Self {
            status,
            body: Box::new(ErrorBody {
                error,
                faults: None,
                text: None,
                etag: None,
            }),
        }
    }

    /// What was sent cannot be used.
    pub(crate) fn unprocessable(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::UNPROCESSABLE_ENTITY, says, remedy)
    }

    /// Edits that cannot be made.
    pub(crate) fn edit_refused(refused: &EditRefused) -> Self {
        match refused {
            EditRefused::NotToml => Self::unprocessable(
                "The job's text is not valid TOML, so single entries cannot be changed.",
                "Correct the text first.",
            ),
            EditRefused::Misplaced { path, reason } => Self::unprocessable(
                format!("`{path}` cannot be changed: {reason}."),
                "Name a place that is there, or the next of a list, as `opening[2].at[1]`, counted from 1.",
            ),
        }
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

    pub(super) fn timed_out() -> Self {
        Self::new(
            StatusCode::REQUEST_TIMEOUT,
            "The request took too long.",
            "Send it again, in one go.",
        )
    }

    /// Work that was cancelled while it was done.
    pub(crate) fn cancelled() -> Self {
        Self::conflict("The work was cancelled.", "Ask for it again.")
    }

    /// The server itself failed.
    pub(crate) fn internal(says: impl Into<String>, remedy: impl Into<String>) -> Self {
        Self::new(StatusCode::INTERNAL_SERVER_ERROR, says, remedy)
    }

    /// What a call of the command would report.
    pub(crate) fn of_failure(failure: Failure) -> Self {
        let own = failure.own;
        let first = failure.faults.into_iter().next().unwrap_or_default();
        if own {
            Self::internal(first.says, first.remedy)
        } else {
            Self::unprocessable(first.says, first.remedy)
        }
    }

    /// The job has been changed by somebody else; its text now comes along.
    pub(crate) fn precondition_failed(name: &str, now: &Text) -> Self {
        let mut error = Self::new(
            StatusCode::PRECONDITION_FAILED,
            format!("`{name}` was changed on the disk or in another window."),
            "Look at what is there now, and make the change again.",
        );
        error.body.text = Some(now.text.clone());
        error.body.etag = Some(now.etag.clone());
        error
    }

    /// The job cannot be worked out as it is.
    pub(crate) fn invalid_job<F: Into<Fault>>(faults: impl IntoIterator<Item = F>) -> Self {
        let mut error = Self::unprocessable(
            "The job cannot be worked out as it is.",
            "Correct what is marked.",
        );
        error.body.faults = Some(faults.into_iter().map(Into::into).collect());
        error
    }

    /// As it is sent.
    pub(super) fn body(&self) -> &ErrorBody {
        &self.body
    }

    /// As the command reports it.
    pub(crate) fn into_fault(self) -> Fault {
        let words = Language::English;
        let Message { says, remedy } = self.body.error;
        Fault::new(words.given(&says), words.given(&remedy))
    }
}

impl IntoResponse for ApiError {
    fn into_response(self) -> Response {
        (self.status, Json(self.body)).into_response()
    }
}

impl OperationOutput for ApiError {
    type Inner = ErrorBody;

    fn inferred_responses(
        context: &mut GenContext,
        _: &mut Operation,
    ) -> Vec<(Option<Status>, Described)> {
        let described = describe::json::<ErrorBody>(context, "Why it is not done, with a remedy");
        [Status::Range(4), Status::Code(500)]
            .map(|status| (Some(status), described.clone()))
            .into()
    }
}
