use super::*;

#[test]
fn dump() {
    for (kind, subject, replies) in [
        ("name", r#""square":"c6","view":"black""#, "pass f3 c5 d6 e4"),
        ("name", r#""square":"a1","view":"white""#, "pass h8"),
        ("place", r#""square":"c6","view":"black""#, "pass 36 63 65 43 44"),
        ("place", r#""square":"c3","view":"white""#, "66"),
        ("place", r#""square":"c6","view":"white""#, "63"),
        ("color", r#""square":"g6""#, "pass"),
        ("color", r#""square":"a1""#, "pass"),
        ("color", r#""square":"b3""#, "pass"),
        ("color", r#""square":"b4""#, "pass"),
        ("aligned", r#""squares":["c1","h6"]"#, "pass"),
        ("aligned", r#""squares":["g5","e3"]"#, "pass"),
        ("aligned", r#""squares":["c1","c7"]"#, "pass"),
        ("aligned", r#""squares":["h5","b5"]"#, "pass"),
        ("aligned", r#""squares":["c1","h7"]"#, "pass"),
        ("aligned", r#""squares":["c1","d4"]"#, "pass"),
        ("between", r#""squares":["g5","c1"]"#, "pass f4,e3 c1,d2,e3,f4,g5 d2,e3,f4,h6,e4"),
        ("between", r#""squares":["c2","c5"]"#, "pass c3,c4,d4"),
        ("between", r#""squares":["c1","d2"]"#, "pass c1 e3"),
        ("crossing", r#""men":["Bc1","Re8"]"#, "pass h6 e3,e4,d2,c1"),
        ("crossing", r#""men":["Qd1","Qe8"]"#, "pass none a1,a2,a3,a4,a5,h5,e2,e1"),
        ("crossing", r#""men":["Nb3","pd6"]"#, "pass c5"),
        ("crossing", r#""men":["Ba1","Ba2"]"#, "pass a3"),
        ("crossing", r#""men":["Ra1","Na4"]"#, "a5"),
        ("span", r#""man":"Nb3""#, "pass a1,c1,d2,d4,a5,c5,b3 a1,c1,d2,d4,a5 e4,e5"),
        ("span", r#""man":"Nd4""#, "pass"),
        ("span", r#""man":"Ka1""#, "pass"),
        ("span", r#""man":"pe4""#, "pass d5,f5 e3"),
        ("span", r#""man":"Pa4""#, "pass"),
        ("span", r#""man":"Bb2""#, "pass a1,c3,d4,e5,f6,g7,h8 a1,c3,d4,e5,f6,g7,h8,a3,c1,c2"),
        ("span", r#""man":"Bh1""#, "pass"),
        ("span", r#""man":"Qd4""#, "pass"),
        ("span", r#""man":"Rd4""#, "pass"),
        ("distance", r#""man":"Na1","to":"h8","blockers":[]"#, "pass"),
        ("distance", r#""man":"Na1","to":"b3","blockers":[]"#, "pass"),
        ("distance", r#""man":"Na1","to":"h8","blockers":["b3","c2"]"#, "pass"),
        ("distance", r#""man":"Na1","to":"h8","blockers":["g6","f7"]"#, "pass"),
        ("distance", r#""man":"Ke1","to":"e3","blockers":["g6"]"#, "pass"),
        ("distance", r#""man":"Ke1","to":"a8","blockers":[]"#, "pass"),
        ("distance", r#""man":"Bc1","to":"c2","blockers":[]"#, "pass"),
        ("distance", r#""man":"Bc1","to":"h4","blockers":[]"#, "pass"),
        ("distance", r#""man":"Bc1","to":"h6","blockers":["e3"]"#, "pass"),
        ("distance", r#""man":"Bc1","to":"h6","blockers":["h6"]"#, "pass"),
        ("distance", r#""man":"Ra1","to":"a8","blockers":["a4"]"#, "pass"),
        ("distance", r#""man":"Ra1","to":"h8","blockers":["c1","c2","c3","c4","c5","c6","c7","c8"]"#, "pass"),
        ("route", r#""man":"Nd4","to":"e5","blockers":["f3"]"#, "pass c6,e5 f3,e5 d4,d4 c6 b5,d6,f5,e3,c4,e5 e5"),
        ("route", r#""man":"Bc1","to":"h4","blockers":["e3"]"#, "f4,h4"),
        ("route", r#""man":"Bc1","to":"h3","blockers":["e3"]"#, "f4,h3"),
    ] {
        let question = asked(kind, subject);
        println!("== {}\n   {}", super::question(&question), truth(&question, &question.truth()));
        for reply in replies.split(' ') {
            println!("  {reply}");
            for line in marked(&question, reply).1 { println!("      {line}"); }
        }
    }
    panic!();
}
