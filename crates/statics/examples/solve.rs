//! Reads a list of frames as JSON on standard input, writes their answers as JSON on standard output.
//!
//! The outside checks drive the library through this. An error is written in the place of the answer.
//! With the argument `--time N` each frame is instead made ready and solved N times, and the least and
//! the median seconds are written.

use std::io::Read;
use std::time::Instant;

use chairwright_statics::{
    Axes, Buckling, BucklingOptions, End, In, Joint, Link, LoadCase, Member, MemberId, MemberLoad, Model, Node,
    NodeId, Orientation, Panel, Section, Side, Solution, Solver,
};
use serde_json::{Value, json};

type Any<T> = Result<T, Box<dyn std::error::Error>>;

fn main() -> Any<()> {
    let mut text = String::new();
    std::io::stdin().read_to_string(&mut text)?;
    let frames: Vec<Value> = serde_json::from_str(&text)?;
    let mut args = std::env::args().skip_while(|a| a != "--time");
    let times = args.nth(1).and_then(|n| n.parse::<usize>().ok());
    let answer = |frame: &Value| match times {
        Some(n) => time(frame, n),
        None => solve(frame),
    };
    let said = |frame: &Value| answer(frame).unwrap_or_else(|e| json!({ "error": e.to_string() }));
    let out: Vec<Value> = frames.iter().map(said).collect();
    serde_json::to_writer(std::io::stdout().lock(), &out)?;
    Ok(())
}

fn solve(frame: &Value) -> Any<Value> {
    let (model, cases) = (read_model(frame)?, read_cases(frame)?);
    let solver = Solver::new(&model)?;
    let solutions = solver.solve(&cases)?;
    let told: Any<Vec<Value>> = solutions.iter().map(|s| tell(s, &model, frame)).collect();
    Ok(json!({ "cases": told? }))
}

fn time(frame: &Value, times: usize) -> Any<Value> {
    let (model, cases) = (read_model(frame)?, read_cases(frame)?);
    let mut seconds = Vec::new();
    for _ in 0..times.max(1) {
        let start = Instant::now();
        let solver = Solver::new(&model)?;
        let solutions = solver.solve(&cases)?;
        std::hint::black_box(&solutions);
        seconds.push(start.elapsed().as_secs_f64());
    }
    seconds.sort_by(f64::total_cmp);
    Ok(json!({ "least": seconds[0], "median": seconds[seconds.len() / 2] }))
}

fn tell(s: &Solution<'_>, model: &Model, frame: &Value) -> Any<Value> {
    let nodes = || (0..model.nodes.len()).map(NodeId);
    let members = || (0..model.members.len()).map(MemberId);
    let stations = frame["stations"].as_u64().unwrap_or(0);
    let along = |m: MemberId| {
        let at = |k: u64| s.length(m) * (k as f64 + 0.5) / stations as f64;
        (0..stations).map(|k| station(s, m, at(k))).collect::<Vec<Value>>()
    };
    let mut out = json!({
        "nodes": nodes().map(|n| s.node(n)).collect::<Vec<_>>(),
        "reactions": nodes().map(|n| s.reaction(n)).collect::<Vec<_>>(),
        "ends": members().map(|m| s.ends(m)).collect::<Vec<_>>(),
        "axes": members().map(|m| { let a = s.axes(m); [a.x, a.y, a.z] }).collect::<Vec<_>>(),
        "stations": members().map(along).collect::<Vec<_>>(),
        "panels": (0..model.panels.len()).map(|p| s.panel_stress(p)).collect::<Vec<_>>(),
        "residual": s.residual(),
        "accuracy": s.accuracy(),
    });
    if let Some(count) = frame["buckling"].as_u64() {
        let pieces = frame["pieces"].as_u64().unwrap_or(8) as usize;
        let factors: Vec<f64> = match s.buckling(&BucklingOptions { count: count as usize, pieces })? {
            Buckling::Never => Vec::new(),
            Buckling::At(modes) => modes.iter().map(|m| m.factor).collect(),
        };
        out["buckling"] = json!(factors);
    }
    Ok(out)
}

fn station(s: &Solution<'_>, m: MemberId, x: f64) -> Value {
    let at = s.station(m, x, Side::Before);
    json!({ "x": x, "force": at.force, "moment": at.moment, "displacement": at.displacement, "rotation": at.rotation })
}

fn get<T: serde::de::DeserializeOwned>(v: &Value, key: &str) -> Any<T> {
    Ok(T::deserialize(&v[key]).map_err(|e| format!("{key}: {e}"))?)
}

fn list<'v>(v: &'v Value, key: &str) -> &'v [Value] {
    v[key].as_array().map_or(&[], Vec::as_slice)
}

fn read_model(v: &Value) -> Any<Model> {
    Ok(Model {
        nodes: list(v, "nodes").iter().map(read_node).collect::<Any<_>>()?,
        members: list(v, "members").iter().map(read_member).collect::<Any<_>>()?,
        links: list(v, "links").iter().map(read_link).collect::<Any<_>>()?,
        panels: list(v, "panels").iter().map(read_panel).collect::<Any<_>>()?,
    })
}

fn read_node(v: &Value) -> Any<Node> {
    let spring = if v["spring"].is_null() { [0.0; 6] } else { get(v, "spring")? };
    Ok(Node { at: get(v, "at")?, fixed: get(v, "fixed")?, spring })
}

fn read_member(v: &Value) -> Any<Member> {
    let s = &v["section"];
    let section = Section {
        e: get(s, "e")?,
        g: get(s, "g")?,
        area: get(s, "area")?,
        shear_y: s["shear_y"].as_f64(),
        shear_z: s["shear_z"].as_f64(),
        iy: get(s, "iy")?,
        iz: get(s, "iz")?,
        j: get(s, "j")?,
    };
    let orientation = match v["z_towards"].is_null() {
        true => Orientation::Roll(v["roll"].as_f64().unwrap_or(0.0)),
        false => Orientation::ZTowards(get(v, "z_towards")?),
    };
    let ends = [read_end(&v["ends"][0])?, read_end(&v["ends"][1])?];
    Ok(Member { i: NodeId(get(v, "i")?), j: NodeId(get(v, "j")?), section, orientation, ends })
}

fn read_end(v: &Value) -> Any<End> {
    let mut end = End::RIGID;
    if !v["offset"].is_null() {
        end.offset = get(v, "offset")?;
    }
    for (joint, said) in end.joint.iter_mut().zip(list(v, "joint")) {
        *joint = match said {
            Value::String(s) if s == "free" => Joint::Free,
            Value::Number(n) => Joint::Spring(n.as_f64().ok_or("spring")?),
            _ => Joint::Rigid,
        };
    }
    Ok(end)
}

fn read_link(v: &Value) -> Any<Link> {
    let axes = match v["x"].is_null() {
        true => Axes::GLOBAL,
        false => Axes::with_z_towards(get(v, "x")?, get(v, "z")?).ok_or("axes of a link")?,
    };
    Ok(Link { a: NodeId(get(v, "a")?), b: NodeId(get(v, "b")?), axes, stiffness: get(v, "stiffness")? })
}

fn read_panel(v: &Value) -> Any<Panel> {
    let corners: [usize; 4] = get(v, "corners")?;
    Ok(Panel { corners: corners.map(NodeId), thickness: get(v, "thickness")?, g: get(v, "g")? })
}

fn read_cases(v: &Value) -> Any<Vec<LoadCase>> {
    list(v, "cases").iter().map(read_case).collect()
}

fn read_case(v: &Value) -> Any<LoadCase> {
    let mut case = LoadCase::new();
    for l in list(v, "nodes") {
        case.nodes.push((NodeId(get(l, "node")?), get(l, "force")?));
    }
    for l in list(v, "members") {
        case.members.push((MemberId(get(l, "member")?), read_load(l)?));
    }
    for l in list(v, "settlements") {
        case.settlements.push((NodeId(get(l, "node")?), get(l, "direction")?, get(l, "by")?));
    }
    Ok(case)
}

fn read_load(l: &Value) -> Any<MemberLoad> {
    let axes = if l["local"] == true { In::Local } else { In::Global };
    Ok(match l["kind"].as_str() {
        Some("uniform") => MemberLoad::Uniform(axes, get(l, "force")?),
        Some("linear") => MemberLoad::Linear {
            axes,
            from: get(l, "from")?,
            to: get(l, "to")?,
            first: get(l, "first")?,
            last: get(l, "last")?,
        },
        Some("point") => {
            MemberLoad::Point { axes, at: get(l, "at")?, force: get(l, "force")?, moment: get(l, "moment")? }
        }
        Some("strain") => MemberLoad::Strain {
            axial: get(l, "axial")?,
            about_y: get(l, "about_y")?,
            about_z: get(l, "about_z")?,
        },
        other => return Err(format!("kind of load {other:?}").into()),
    })
}
