using Microsoft.AspNetCore.Components;

namespace Sandarac.Server.Pages.Shared;

/// <summary>A form that writes into a painting's record and then shows its page again.</summary>
public abstract class WrittenForm : StudioForm
{
    /// <summary>The painting.</summary>
    [Parameter, EditorRequired] public required Sandarac.Studio.Record.Painting Painting { get; set; }

    /// <summary>Writes what was entered.</summary>
    /// <param name="write">Writes it and gives the address to show afterwards, below the painting's.</param>
    private protected void Write(Func<Entered, string> write) => WriteAndShow(entered => $"/paintings/{Painting.Id}/{write(entered)}");
}
