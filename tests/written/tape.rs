//! Sizes as the paper writes them.

/// "15 5/16 - .013" in inches.
pub(crate) fn inches(tape: &str) -> f64 {
    let (mut sign, mut sum) = (1.0, 0.0);
    for word in tape.split(' ') {
        match word.split_once('/') {
            Some((over, under)) => sum += over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
            None if word == "-" => sign = -1.0,
            None if word == "+" => {}
            None => sum += sign * word.parse::<f64>().unwrap(),
        }
    }
    sum
}
