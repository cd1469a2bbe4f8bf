namespace Sandarac.Studio.Documents;

/// <summary>What a document is for.</summary>
public enum DocumentKind
{
    /// <summary>What a first examination gave: photographs, readings, files.</summary>
    First,

    /// <summary>All that is known of how the painting was made and what happened to it.</summary>
    Examination,

    /// <summary>In what state it is.</summary>
    Condition,

    /// <summary>What is to be done, for approval.</summary>
    Proposal,

    /// <summary>What was done.</summary>
    Treatment,

    /// <summary>Its state at the stations of a loan.</summary>
    Loan,
}

/// <summary>How a document is written.</summary>
public enum Rendering
{
    /// <summary>For archives and print.</summary>
    Pdf,

    /// <summary>For editing.</summary>
    Docx,

    /// <summary>For screens and readers by ear.</summary>
    Html,
}
