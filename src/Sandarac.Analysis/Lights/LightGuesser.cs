namespace Sandarac.Analysis.Lights;

/// <summary>The rules behind <see cref="LightGuess.From"/>. Sources come strongest first: the file name, its folders from the innermost outward, the description.</summary>
internal sealed class LightGuesser(IReadOnlyList<NameSource> sources)
{
    /// <summary>Words that are used for a light besides its codes and aliases.</summary>
    private static readonly Dictionary<string, Light> Words = new()
    {
        ["RADIOGRAPH"] = Light.Xray, ["XRADIOGRAPH"] = Light.Xray, ["XSECTION"] = Light.Section, ["CROSSSECTION"] = Light.Section,
        // A picture that is named for being in colour is one in visible light, unless something else is said.
        ["RGB"] = Light.Visible, ["SRGB"] = Light.Visible, ["COLOUR"] = Light.Visible, ["COLOR"] = Light.Visible,
    };

    /// <summary>Codes and words that are also used for other things: UV for reflected ultraviolet, RL for a roll, TL for top left, "normal" and "white" in titles.</summary>
    private static readonly HashSet<string> Weak = ["UV", "RL", "TL", "XS", "NORMAL", "SECTION", "WHITE", "RGB", "SRGB", "COLOUR", "COLOR"];

    private readonly List<string> _reasons = [];

    public LightGuess Guess()
    {
        var (light, confidence, sectionLight) = FindLight();
        var lamp = light == Light.Raking || light == Light.Specular ? LampGuess.From(sources) : new LampGuess(null, null, null, [], false);
        _reasons.AddRange(lamp.Reasons);
        if (lamp.Contradicts) confidence = Confidence.Possible;
        else if (lamp.Side is not null && confidence == Confidence.Probable) confidence = Confidence.Certain;
        var subject = SubjectGuess.From(sources, light, out var why);
        if (why is not null) _reasons.Add(why);
        var plate = light == Light.Xray ? SubjectGuess.Numbered(sources, "PLATE", "PL", "FILM") : null;
        // A numbered plate is one of several: it shows a part, whatever its proportions.
        if (plate is not null && subject == PhotographSubject.Painting) subject = PhotographSubject.Detail;
        return new LightGuess(light, subject, confidence, string.Join(", ", _reasons))
        {
            Side = lamp.Side,
            AzimuthDegrees = lamp.Azimuth,
            ElevationDegrees = lamp.Elevation,
            SectionLight = sectionLight,
            Sample = light == Light.Section ? SubjectGuess.Sample(sources) : null,
            Plate = plate,
        };
    }

    /// <summary>The light of a word, whatever its place.</summary>
    internal static Light? LightOf(NameToken token) => token.Word.Length == 0 ? null : Light.Find(token.Word) ?? Words.GetValueOrDefault(token.Word);

    /// <summary>The words of a source that name a light. After a raking code, TL means the top left.</summary>
    internal static IReadOnlyList<NameToken> LightTokens(NameSource source)
    {
        var all = source.Tokens.Where(t => LightOf(t) is not null).ToArray();
        return all.Any(t => LightOf(t) == Light.Raking) ? [.. all.Where(t => t.Word != "TL")] : all;
    }

    private (Light? Light, Confidence Confidence, Light? SectionLight) FindLight()
    {
        var named = sources.Select((source, rank) => (Source: source, Rank: rank, Tokens: LightTokens(source))).Where(n => n.Tokens.Count > 0).ToArray();
        if (named.Length == 0)
        {
            _reasons.Add("no light is named in the file name, the folders or the description");
            return (null, Confidence.Possible, null);
        }
        var (first, _, tokens) = named[0];
        var light = Joint(first, tokens) ?? LightOf(tokens[0])!;
        var clear = Joint(first, tokens) is not null;
        _reasons.Add($"{string.Join(" and ", tokens.Select(t => $"\"{t.Text}\"").Distinct())} {first.Where}{(clear ? "" : ", which names several lights")}");
        var confidence = Strength(tokens, named[0].Rank, clear);
        foreach (var (source, _, others) in named.Skip(1))
        {
            var agrees = Joint(source, others) is { } other && (other == light || Refines(light, other));
            _reasons.Add($"{(agrees ? "" : "but ")}\"{others[0].Text}\" {source.Where}");
            confidence = !agrees ? Confidence.Possible : clear && confidence == Confidence.Probable ? Confidence.Certain : confidence;
        }
        return (light, confidence, light == Light.Section ? SectionLight(tokens) : null);
    }

    /// <summary>The one light that the words of a source mean together, or null when they contradict each other.</summary>
    private static Light? Joint(NameSource source, IReadOnlyList<NameToken> tokens)
    {
        var lights = tokens.Select(t => LightOf(t)!).Distinct().ToHashSet();
        if (lights.Contains(Light.Section)) return Light.Section;
        if (lights.SetEquals([Light.Transmitted, Light.Infrared])) return Light.TransmittedInfrared;
        if (lights.SetEquals([Light.Luminescence]) && source.Tokens.Any(t => t.Word == "REFLECTED")) return Light.ReflectedUltraviolet;
        return lights.Count == 1 ? lights.Single() : null;
    }

    /// <summary>A folder "IR" holds reflectograms too, a folder "UV" reflected ultraviolet, and a folder for sections the micrographs named VIS and UV.</summary>
    private static bool Refines(Light light, Light folder) =>
        (folder == Light.Infrared && (light == Light.Reflectogram || light == Light.TransmittedInfrared || light == Light.FalseColour))
        || (folder == Light.Luminescence && light == Light.ReflectedUltraviolet);

    private static Confidence Strength(IReadOnlyList<NameToken> tokens, int rank, bool clear)
    {
        if (!clear) return Confidence.Possible;
        var weak = tokens.All(t => Weak.Contains(t.Word));
        return ((weak ? 1 : 0) + (rank > 0 ? 1 : 0)) switch { 0 => Confidence.Certain, 1 => Confidence.Probable, _ => Confidence.Possible };
    }

    private static Light? SectionLight(IReadOnlyList<NameToken> tokens) =>
        tokens.Select(LightOf).FirstOrDefault(l => l == Light.Visible || l == Light.Luminescence);
}
