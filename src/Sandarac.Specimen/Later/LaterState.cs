namespace Sandarac.Specimen.Later;

/// <summary>What happened to the painting before it is photographed again.</summary>
public enum LaterState
{
    /// <summary>Nothing: only the camera and the lamps were set up anew. A control.</summary>
    Unchanged,

    /// <summary>Small damages and deposits, each listed in <c>truth/changes.json</c>.</summary>
    Changed,
}
