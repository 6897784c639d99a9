//! What handlers take from a request, with our own words where it cannot be used, and its description.

use crate::serve::describe::input_schema;
use crate::serve::error::ApiError;
use aide::OperationInput;
use aide::generate::GenContext;
use aide::openapi::{MediaType, Operation, RequestBody, SchemaObject};
use aide::operation::{ParamLocation, add_parameters, parameters_from_schema, set_body};
use axum::Json;
use axum::extract::rejection::{JsonRejection, PathRejection, QueryRejection};
use axum::extract::{FromRequest, FromRequestParts, Request};
use axum::http::request::Parts;
use axum::http::{HeaderMap, StatusCode};
use schemars::{JsonSchema, Schema, json_schema};
use serde::Deserialize;
use serde::de::DeserializeOwned;

/// Letters of a window's name that are kept.
const MAX_WINDOW: usize = 64;

/// A JSON body.
pub(super) struct Body<T>(pub(super) T);

impl<S: Send + Sync, T: DeserializeOwned> FromRequest<S> for Body<T> {
    type Rejection = ApiError;

    async fn from_request(request: Request, state: &S) -> Result<Self, ApiError> {
        let body = Json::<T>::from_request(request, state).await;
        body.map(|Json(value)| Self(value))
            .map_err(|fault: JsonRejection| {
                ApiError::new(
                    fault.status(),
                    format!(
                        "What was sent cannot be used: {}.",
                        reason(&fault.body_text())
                    ),
                    "Send JSON of the form that /openapi.json shows.",
                )
            })
    }
}

impl<T: JsonSchema> OperationInput for Body<T> {
    fn operation_input(context: &mut GenContext, operation: &mut Operation) {
        let media = MediaType {
            schema: Some(SchemaObject {
                json_schema: input_schema::<T>(context),
                example: None,
                external_docs: None,
            }),
            ..MediaType::default()
        };
        let body = RequestBody {
            content: [("application/json".to_owned(), media)]
                .into_iter()
                .collect(),
            required: true,
            ..RequestBody::default()
        };
        set_body(context, operation, body);
    }
}

/// Parts of the path.
pub(super) struct Path<T>(pub(super) T);

impl<S: Send + Sync, T: DeserializeOwned + Send> FromRequestParts<S> for Path<T> {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, ApiError> {
        let path = axum::extract::Path::<T>::from_request_parts(parts, state).await;
        path.map(|path| Self(path.0))
            .map_err(|fault: PathRejection| {
                ApiError::not_found(format!(
                    "There is no such path: {}.",
                    reason(&fault.body_text())
                ))
            })
    }
}

impl<T: JsonSchema> OperationInput for Path<T> {
    fn operation_input(context: &mut GenContext, operation: &mut Operation) {
        parameters::<T>(context, operation, ParamLocation::Path);
    }
}

/// The name of a job in the path.
#[derive(Deserialize, JsonSchema)]
#[schemars(inline)]
pub(super) struct JobName {
    pub(super) name: String,
}

/// The query.
pub(super) struct Query<T>(pub(super) T);

impl<S: Send + Sync, T: DeserializeOwned> FromRequestParts<S> for Query<T> {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, state: &S) -> Result<Self, ApiError> {
        let query = axum::extract::Query::<T>::from_request_parts(parts, state).await;
        query
            .map(|query| Self(query.0))
            .map_err(|fault: QueryRejection| {
                ApiError::unprocessable(
                    format!("The query cannot be used: {}.", reason(&fault.body_text())),
                    "See /openapi.json.",
                )
            })
    }
}

impl<T: JsonSchema> OperationInput for Query<T> {
    fn operation_input(context: &mut GenContext, operation: &mut Operation) {
        parameters::<T>(context, operation, ParamLocation::Query);
    }
}

/// The etag of the text that a change is made to.
pub(super) struct IfMatch(pub(super) String);

impl<S: Send + Sync> FromRequestParts<S> for IfMatch {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, ApiError> {
        let given = text(&parts.headers, "if-match").unwrap_or("");
        let etag = given.trim().trim_matches('"');
        if etag.is_empty() {
            return Err(ApiError::new(
                StatusCode::PRECONDITION_REQUIRED,
                "A change must say which text it is made to.",
                "Send the etag of the job in the If-Match header.",
            ));
        }
        Ok(Self(etag.to_owned()))
    }
}

impl OperationInput for IfMatch {
    fn operation_input(context: &mut GenContext, operation: &mut Operation) {
        let header = json_schema!({
            "properties": { "If-Match": { "type": "string", "description": "The etag of the text that is changed." } },
            "required": ["If-Match"],
        });
        add(context, operation, header, ParamLocation::Header);
    }
}

/// The window that asks, by the name it gave itself.
pub(super) struct Window(pub(super) String);

impl<S: Send + Sync> FromRequestParts<S> for Window {
    type Rejection = ApiError;

    async fn from_request_parts(parts: &mut Parts, _: &S) -> Result<Self, ApiError> {
        let given = text(&parts.headers, "x-window").unwrap_or("");
        Ok(Self(given.chars().take(MAX_WINDOW).collect()))
    }
}

impl OperationInput for Window {
    fn operation_input(context: &mut GenContext, operation: &mut Operation) {
        let header = json_schema!({
            "properties": { "X-Window": { "type": "string", "description": "The window that asks, reported to other windows with the change." } },
        });
        add(context, operation, header, ParamLocation::Header);
    }
}

fn parameters<T: JsonSchema>(
    context: &mut GenContext,
    operation: &mut Operation,
    location: ParamLocation,
) {
    let schema = input_schema::<T>(context);
    add(context, operation, schema, location);
}

fn add(
    context: &mut GenContext,
    operation: &mut Operation,
    schema: Schema,
    location: ParamLocation,
) {
    let parameters = parameters_from_schema(context, schema, location);
    add_parameters(context, operation, parameters);
}

fn text<'a>(headers: &'a HeaderMap, name: &str) -> Option<&'a str> {
    headers.get(name).and_then(|value| value.to_str().ok())
}

fn reason(text: &str) -> &str {
    text.trim_end_matches('.')
}
