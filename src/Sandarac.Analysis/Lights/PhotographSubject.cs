namespace Sandarac.Analysis.Lights;

/// <summary>What is in the frame.</summary>
public enum PhotographSubject
{
    /// <summary>The painting.</summary>
    Painting,

    /// <summary>A part of it, close up.</summary>
    Detail,

    /// <summary>A paint sample or its section.</summary>
    Sample,

    /// <summary>A colour chart or scale.</summary>
    Chart,

    /// <summary>An even board in the painting's place, which shows how the light falls.</summary>
    FlatField,

    /// <summary>A frame without light, which shows what the sensor adds.</summary>
    DarkFrame,
}

/// <summary>How sure a statement is, in the words conservators use.</summary>
public enum Confidence
{
    /// <summary>Weakly supported or contradicted: a person must look.</summary>
    Possible,

    /// <summary>Supported, but other explanations remain.</summary>
    Probable,

    /// <summary>Stated, or supported without contradiction.</summary>
    Certain,
}
