//! The OpenAPI description (3.1) of the server's paths.

use super::{describe, routes};
use serde_json::Value;

/// The document as it is served, and as it is committed for the page.
pub fn openapi() -> Value {
    let (_, document) = describe::described(routes::api);
    document
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_reference_leads_somewhere() {
        let document = openapi();
        let text = document.to_string();
        let mut references = text.split("\"$ref\":\"#").skip(1);
        assert!(references.clone().count() > 20);
        let missing = references.find(|rest| {
            let pointer = rest.split('"').next().unwrap_or("");
            document.pointer(pointer).is_none()
        });
        assert!(missing.is_none(), "{missing:?}");
    }
}
