//! How handlers are described in OpenAPI (3.1): each says by its types what it takes and what it answers.

use aide::OperationOutput;
use aide::axum::ApiRouter;
use aide::generate::{GenContext, in_context};
use aide::openapi::{
    Info, MediaType, OpenApi, Operation, Response as Described, SchemaObject, StatusCode as Status,
};
use aide::transform::TransformOperation;
use axum::Json;
use axum::Router;
use axum::http::StatusCode;
use axum::response::{IntoResponse, Response};
use schemars::generate::{SchemaGenerator, SchemaSettings};
use schemars::{JsonSchema, Schema};
use serde::Serialize;
use serde_json::Value;
use std::marker::PhantomData;

/// The paths that are described, with their description.
pub(super) fn described<S: Clone + Send + Sync + 'static>(
    routes: impl FnOnce() -> ApiRouter<S>,
) -> (Router<S>, Value) {
    in_context(|context| context.schema = settings().for_serialize().into_generator());
    let mut document = OpenApi {
        info: Info {
            title: "Brimful".to_owned(),
            version: env!("CARGO_PKG_VERSION").to_owned(),
            description: Some("The local server behind the page. SI throughout, the unit at the end of each name. Changes name the text they are made to in the If-Match header.".to_owned()),
            ..Info::default()
        },
        ..OpenApi::default()
    };
    let routes = routes().finish_api(&mut document);
    // The rest of a path is a parameter like any other in the description.
    if let Some(paths) = &mut document.paths {
        let plain = std::mem::take(&mut paths.paths).into_iter();
        paths.paths = plain
            .map(|(path, item)| (path.replace("{*", "{"), item))
            .collect();
    }
    let document = serde_json::to_value(document).unwrap_or_default();
    (routes, document)
}

fn settings() -> SchemaSettings {
    SchemaSettings::draft2020_12().with(|settings| {
        settings.definitions_path = "/components/schemas".into();
    })
}

/// The schema of what is sent: unlike an answer it may leave out what has a default.
pub(super) fn input_schema<T: JsonSchema>(context: &mut GenContext) -> Schema {
    let mut generator: SchemaGenerator = settings().for_deserialize().into_generator();
    let schema = generator.subschema_for::<T>();
    let definitions = generator.take_definitions(true);
    context.schema.definitions_mut().extend(definitions);
    schema
}

/// A body of one kind.
pub(super) fn content(kind: &str, schema: Schema, description: &str) -> Described {
    let media = MediaType {
        schema: Some(SchemaObject {
            json_schema: schema,
            example: None,
            external_docs: None,
        }),
        ..MediaType::default()
    };
    Described {
        description: description.to_owned(),
        content: [(kind.to_owned(), media)].into_iter().collect(),
        ..Described::default()
    }
}

/// A body of JSON.
pub(super) fn json<T: JsonSchema>(context: &mut GenContext, description: &str) -> Described {
    let schema = context.schema.subschema_for::<T>();
    content("application/json", schema, description)
}

/// What a call is for, in a line.
pub(super) fn summary(
    text: &'static str,
) -> impl FnOnce(TransformOperation<'_>) -> TransformOperation<'_> {
    move |operation| operation.summary(text)
}

/// A response that is put together otherwise, and is JSON of a type.
#[derive(Debug)]
pub(super) struct JsonResponse<T>(Response, PhantomData<T>);

impl<T> JsonResponse<T> {
    pub(super) fn new(response: impl IntoResponse) -> Self {
        Self(response.into_response(), PhantomData)
    }
}

impl<T> IntoResponse for JsonResponse<T> {
    fn into_response(self) -> Response {
        self.0
    }
}

impl<T: JsonSchema> OperationOutput for JsonResponse<T> {
    type Inner = T;

    fn inferred_responses(
        context: &mut GenContext,
        operation: &mut Operation,
    ) -> Vec<(Option<Status>, Described)> {
        Reply::<200, T>::inferred_responses(context, operation)
    }
}

/// JSON with a status of its own.
#[derive(Debug)]
pub(super) struct Reply<const STATUS: u16, T>(pub(super) T);

pub(super) type Created<T> = Reply<201, T>;
pub(super) type Accepted<T> = Reply<202, T>;

impl<const STATUS: u16, T: Serialize> IntoResponse for Reply<STATUS, T> {
    fn into_response(self) -> Response {
        let status = StatusCode::from_u16(STATUS).unwrap_or_default();
        (status, Json(self.0)).into_response()
    }
}

impl<const STATUS: u16, T: JsonSchema> OperationOutput for Reply<STATUS, T> {
    type Inner = T;

    fn inferred_responses(
        context: &mut GenContext,
        _: &mut Operation,
    ) -> Vec<(Option<Status>, Described)> {
        vec![(Some(Status::Code(STATUS)), json::<T>(context, "Done"))]
    }
}
