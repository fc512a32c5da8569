//! Comma-separated values as RFC 4180 asks for them.

/// One record: fields with commas, quotes or line ends are quoted, quotes doubled, CR LF at the end.
pub(crate) fn record(fields: &[String]) -> String {
    let fields: Vec<String> = fields.iter().map(|field| quoted(field)).collect();
    format!("{}\r\n", fields.join(","))
}

fn quoted(field: &str) -> String {
    if field.contains([',', '"', '\r', '\n']) {
        format!("\"{}\"", field.replace('"', "\"\""))
    } else {
        field.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// The examples of RFC 4180, section 2, rules 6 and 7.
    #[test]
    fn fields_are_quoted_as_the_rules_say() {
        let fields = ["aaa", "b\r\nbb", "c\"cc", "d,d"].map(str::to_owned);
        assert_eq!(record(&fields), "aaa,\"b\r\nbb\",\"c\"\"cc\",\"d,d\"\r\n");
    }
}
