' Opens every workbook of one folder with a view, as a person would, reads the result tabs
' back and saves it into another folder. (A conversion from the command line has no view, and
' every frozen pane is lost, whoever wrote the file.)
Sub Resave(from As String, into As String)
  Dim names(5000) As String
  Dim n As Integer
  Dim k As Integer
  Dim log As Integer
  Dim entry As String
  entry = Dir(from & "/*")
  Do While entry <> ""
    names(n) = entry
    n = n + 1
    entry = Dir()
  Loop
  log = FreeFile
  Open into & "/readings.txt" For Output As #log
  For k = 0 To n - 1
    Print #log, names(k) & "|" & ReadAndSave(from & "/" & names(k), into & "/" & names(k))
  Next
  Close #log
  StarDesktop.terminate()
End Sub

Function ReadAndSave(path As String, target As String) As String
  Dim opening(1) As New com.sun.star.beans.PropertyValue
  Dim saving(0) As New com.sun.star.beans.PropertyValue
  Dim said As String
  On Error Goto Failed
  opening(0).Name = "MacroExecutionMode"
  opening(0).Value = 0
  opening(1).Name = "UpdateDocMode"
  opening(1).Value = 0
  saving(0).Name = "FilterName"
  saving(0).Value = "Calc MS Excel 2007 XML"
  If LCase(Right(path, 5)) = ".xlsm" Then saving(0).Value = "Calc MS Excel 2007 VBA XML"
  doc = StarDesktop.loadComponentFromURL(ConvertToURL(path), "_blank", 0, opening())
  If IsNull(doc) Then
    ReadAndSave = "error=not loaded"
    Exit Function
  End If
  view = doc.CurrentController
  before = view.ActiveSheet
  If doc.Sheets.hasByName("dryfit") Then
    sh = doc.Sheets.getByName("dryfit")
    view.setActiveSheet(sh)
    said = "text=" & sh.getCellRangeByName("A1").String
    said = said & "|number=" & sh.getCellRangeByName("B12").String
    said = said & "|formula=" & sh.getCellRangeByName("C12").Formula
    said = said & "|result=" & sh.getCellRangeByName("C12").String
    said = said & "|fill=" & Hex(sh.getCellRangeByName("A1").CellBackColor)
    said = said & "|notes=" & sh.Annotations.Count
    said = said & "|link=" & sh.getCellRangeByName("A3").TextFields.getByIndex(0).URL
    said = said & "|frozen=" & view.hasFrozenPanes()
    said = said & "|pictures=" & sh.DrawPage.Count
    said = said & "|rules=" & (UBound(sh.ConditionalFormats.getConditionalFormats()) + 1)
    said = said & "|titles=" & sh.getPrintTitleRows()
    said = said & "|rich=" & doc.Sheets.getByName("dryfit rows").getCellRangeByName("A2").String
  End If
  view.setActiveSheet(before)
  doc.storeToURL(ConvertToURL(target), saving())
  doc.close(True)
  ReadAndSave = said
  Exit Function
Failed:
  ReadAndSave = "error=" & Error$ & " after " & said
End Function
